import { NodeRegistry } from '@ribband/access';
import { CrewModule, YardDay } from '@ribband/crew';
import { Database } from '@ribband/platform';
import { Inject, Module, type OnModuleInit } from '@nestjs/common';
import { In, type EntityTarget } from 'typeorm';
import { haulOutInForce } from './haul-out/haul-out.records.js';
import { HaulOutResolver } from './haul-out/haul-out.resolver.js';
import { HaulOut } from './haul-out/haul-out.entity.js';
import { LiftSlot } from './haul-out/lift-slot.entity.js';
import { SlotWordsResolver } from './haul-out/slot-words.resolver.js';
import { SlotWords } from './haul-out/slot-words.service.js';
import { Vessel } from './haul-out/vessel.entity.js';
import { HandoverResolver } from './handover/handover.resolver.js';
import { Handover } from './handover/handover.service.js';
import { SafetyResolver } from './hazards/safety.resolver.js';
import { HullRecords } from './hull/hull-records.service.js';
import { HullResolver } from './hull/hull.resolver.js';
import { WorkResolver } from './methods/work.resolver.js';
import { Work } from './methods/work.service.js';
import { Link } from './links/link.entity.js';
import { LinksResolver, TaskLinksResolver } from './links/links.resolver.js';
import { Links } from './links/links.service.js';
import { HullElement } from './openings/hull-element.entity.js';
import { OpeningLimit } from './openings/opening-limit.entity.js';
import { OpeningsResolver } from './openings/openings.resolver.js';
import { Openings } from './openings/openings.service.js';
import { FindPiece } from './pieces/find-piece.service.js';
import { Permits } from './permits/permits.service.js';
import { SafetyRecords } from './permits/safety-records.service.js';
import { SafetyRecordsResolver } from './permits/safety-records.resolver.js';
import { SafetyTags } from './permits/safety-tags.service.js';
import { PieceFieldsResolver } from './pieces/piece-fields.resolver.js';
import { Piece } from './pieces/piece.entity.js';
import { PiecesResolver } from './pieces/pieces.resolver.js';
import { Pieces } from './pieces/pieces.service.js';
import { PicturesResolver } from './pictures/pictures.resolver.js';
import { Pictures } from './pictures/pictures.service.js';
import { HoldPointsResolver } from './hold-points/hold-points.resolver.js';
import { HoldPoints } from './hold-points/hold-points.service.js';
import { MarksResolver } from './marks/marks.resolver.js';
import { Marks } from './marks/marks.service.js';
import { WitnessMark } from './marks/witness-mark.entity.js';
import { HullDay } from './openings/hull-today.js';
import { LimitSettings } from './openings/limit-settings.service.js';
import { OpeningGate } from './openings/opening-gate.js';
import { Supports } from './openings/supports.service.js';
import { YardReportsResolver } from './openings/yard-reports.resolver.js';
import { YardReports } from './openings/yard-reports.service.js';
import { PlankingResolver } from './planking/planking.resolver.js';
import { Planking } from './planking/planking.service.js';
import { PlanView } from './plan-view/plan-view.js';
import { ShellResolver } from './shell/shell.resolver.js';
import { Shells } from './shell/shell.service.js';
import { RosterView } from './roster-view/roster-view.js';
import { DelegationsResolver, TaskAuthorityResolver } from './tallies/delegations.resolver.js';
import { Delegations } from './tallies/delegations.service.js';
import { SaySos } from './tallies/say-so.service.js';
import { TalliesResolver, TaskRecordResolver } from './tallies/tallies.resolver.js';
import { Tallies } from './tallies/tallies.service.js';
import { SeatResolver, TaskToolResolver } from './tasks/seat.resolver.js';
import { TaskFieldsResolver } from './tasks/task-fields.resolver.js';
import { Task } from './tasks/task.entity.js';
import { TasksResolver } from './tasks/tasks.resolver.js';
import { Tasks } from './tasks/tasks.service.js';
import { YardBoard } from './tasks/yard-board.js';
import { StockHolds } from './timber/stock-holds.service.js';
import { StockToOrder } from './timber/stock-orders.service.js';
import { timberProviders } from './timber/timber.room.js';
import { Tool } from './tools/tool.entity.js';
import { ToolsResolver } from './tools/tools.resolver.js';
import { Tools } from './tools/tools.service.js';
import { CareLevels } from './trays/care.service.js';
import { FasteningKinds, LotLeft } from './trays/fastening-kinds.service.js';
import { HoleBook } from './trays/hole-book.service.js';
import { Lot } from './trays/lot.entity.js';
import { LotsResolver } from './trays/lots.resolver.js';
import { NewWood } from './trays/new-wood.service.js';
import { PlankRepairs } from './trays/plank-repairs.service.js';
import { TaskTrayResolver, TrayFieldsResolver } from './trays/tray-fields.resolver.js';
import { TrayYard } from './trays/tray-yard.service.js';
import { Tray } from './trays/tray.entity.js';
import { TraysResolver } from './trays/trays.resolver.js';
import { Trays } from './trays/trays.service.js';

/** Ids that begin with the word name rows of this type, which everybody at the yard may read. */
const kinds: [
  word: string,
  typeName: string,
  entity: EntityTarget<{ id: string; organisationId: string }>,
][] = [
  ['vessel', 'Vessel', Vessel],
  ['haulout', 'HaulOut', HaulOut],
  ['liftslot', 'LiftSlot', LiftSlot],
  ['tool', 'Tool', Tool],
  ['element', 'HullElement', HullElement],
  ['limit', 'OpeningLimit', OpeningLimit],
  ['mark', 'WitnessMark', WitnessMark],
  ['task', 'Task', Task],
  ['link', 'Link', Link],
  ['piece', 'Piece', Piece],
  ['tray', 'Tray', Tray],
  ['lot', 'Lot', Lot],
];

/** The vessel and the work on her. */
@Module({
  imports: [CrewModule],
  providers: [
    RosterView,
    PlanView,
    YardBoard,
    Tasks,
    Links,
    Tallies,
    SaySos,
    Openings,
    HullRecords,
    HullDay,
    OpeningGate,
    YardReports,
    Supports,
    LimitSettings,
    Marks,
    HoldPoints,
    Planking,
    Shells,
    Work,
    HaulOutResolver,
    SlotWords,
    SlotWordsResolver,
    HullResolver,
    WorkResolver,
    SafetyResolver,
    Permits,
    SafetyTags,
    SafetyRecords,
    SafetyRecordsResolver,
    ToolsResolver,
    Tools,
    OpeningsResolver,
    YardReportsResolver,
    MarksResolver,
    HoldPointsResolver,
    PlankingResolver,
    ShellResolver,
    TasksResolver,
    TaskFieldsResolver,
    SeatResolver,
    TaskToolResolver,
    LinksResolver,
    TaskLinksResolver,
    TalliesResolver,
    TaskRecordResolver,
    Delegations,
    DelegationsResolver,
    TaskAuthorityResolver,
    Pieces,
    FindPiece,
    Pictures,
    PiecesResolver,
    PieceFieldsResolver,
    PicturesResolver,
    Handover,
    HandoverResolver,
    HoleBook,
    NewWood,
    Trays,
    TrayYard,
    PlankRepairs,
    FasteningKinds,
    LotLeft,
    CareLevels,
    TraysResolver,
    TrayFieldsResolver,
    TaskTrayResolver,
    LotsResolver,
    ...timberProviders,
  ],
  exports: [
    SlotWords,
    Permits,
    SafetyTags,
    Tasks,
    Links,
    RosterView,
    PlanView,
    YardBoard,
    OpeningGate,
    Marks,
    HullDay,
    HullRecords,
    Pictures,
    StockHolds,
    CareLevels,
    StockToOrder,
    SafetyRecords,
    Tallies,
    SaySos,
    HoldPoints,
    Trays,
    FasteningKinds,
    Tools,
  ],
})
export class RepairModule implements OnModuleInit {
  constructor(
    @Inject(NodeRegistry) private readonly nodes: NodeRegistry,
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  onModuleInit(): void {
    this.yardDay.connect(
      async (manager, organisationId) => (await haulOutInForce(manager, organisationId))?.timeZone ?? null,
    );
    for (const [word, typeName, entity] of kinds)
      this.nodes.register(word, typeName, (ids, { organisationId }) =>
        this.database.read.findBy(entity, { organisationId, id: In(ids) }),
      );
  }
}
