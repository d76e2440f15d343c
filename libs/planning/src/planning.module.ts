import { AccessModule, NodeRegistry } from '@ribband/access';
import { CrewModule } from '@ribband/crew';
import { PlanView, RepairModule } from '@ribband/repair';
import { RosterModule } from '@ribband/roster';
import { Inject, Module, type OnModuleInit } from '@nestjs/common';
import { CallResolver } from './call/call.resolver.js';
import { MorningSheets } from './call/morning-sheets.service.js';
import { Mornings } from './call/mornings.service.js';
import { EngineThreads } from './compute/engine-threads.js';
import { Expected } from './compute/expected.js';
import { YardLoader } from './compute/load-yard.js';
import { Overtaken } from './compute/overtaken.js';
import { PlanHandler } from './compute/plan.handler.js';
import { PlanningSettings } from './compute/settings.js';
import { OddsThreads } from './compute/odds-threads.js';
import { Paces } from './beliefs/paces.service.js';
import { OrdersDue } from './outlook/orders-due.service.js';
import { Befores } from './outlook/befores.service.js';
import { AdviceHandler } from './outlook/advice.handler.js';
import { ForecastHandler } from './outlook/forecast.handler.js';
import { OddsDesk } from './outlook/odds-desk.service.js';
import { OutlookResolver } from './outlook/outlook.resolver.js';
import { Outlooks } from './outlook/outlooks.service.js';
import { RecordResolver } from './record/record.resolver.js';
import { Records } from './record/records.service.js';
import { WhatIfHandler } from './what-if/what-if.handler.js';
import { WhatIfResolver } from './what-if/what-if.resolver.js';
import { ApplyWhatIf } from './what-if/apply-what-if.service.js';
import { WhatIfs } from './what-if/what-ifs.service.js';
import { DemoYard } from './demo/demo-yard.service.js';
import { TroublesResolver } from './demo/troubles/troubles.resolver.js';
import { Troubles } from './demo/troubles/troubles.service.js';
import { MoveClock } from './demo/move-clock.service.js';
import { PlayOn } from './demo/play-on.service.js';
import { Renewals } from './demo/renewals.service.js';
import { ComputingResolver } from './plans/computing.resolver.js';
import { plannedSpans } from './plans/planned-spans.js';
import { LapsingCardsResolver } from './cards/lapsing-cards.resolver.js';
import { LapsingCards } from './cards/lapsing-cards.service.js';
import { PlanShelf } from './plans/plan-shelf.service.js';
import { PlansResolver } from './plans/plans.resolver.js';
import { Plans } from './plans/plans.service.js';
import { CareOddsHandler } from './fastenings/care-odds.handler.js';
import { CareOddsResolver } from './fastenings/care-odds.resolver.js';
import { CareOddsDesk } from './fastenings/care-odds.service.js';
import { KindPlanResolver } from './fastenings/kind-plan.resolver.js';
import { TaskPlanResolver } from './plans/task-plan.resolver.js';
import { SecondVersions } from './week/second-versions.service.js';
import { RingResolver } from './week/ring.resolver.js';
import { WeekResolver } from './week/week.resolver.js';
import { Weeks } from './week/weeks.service.js';
import { WatchProposalsResolver } from './watches/watches.resolver.js';
import { WatchProposals } from './watches/watch-proposals.service.js';
import { YardBook } from './yard/yard-book.service.js';
import { YardResolver } from './yard/yard.resolver.js';

/** Turns records into plans and plans into weeks. */
@Module({
  imports: [AccessModule, CrewModule, RepairModule, RosterModule],
  providers: [
    { provide: PlanningSettings, useFactory: () => PlanningSettings.read(process.env) },
    YardLoader,
    Expected,
    EngineThreads,
    PlanHandler,
    OddsThreads,
    OddsDesk,
    Befores,
    OrdersDue,
    ForecastHandler,
    AdviceHandler,
    WhatIfHandler,
    Outlooks,
    Paces,
    Records,
    WhatIfs,
    ApplyWhatIf,
    OutlookResolver,
    RecordResolver,
    WhatIfResolver,
    Overtaken,
    PlanShelf,
    Plans,
    Weeks,
    WatchProposals,
    WatchProposalsResolver,
    SecondVersions,
    Mornings,
    MorningSheets,
    YardBook,
    DemoYard,
    MoveClock,
    PlayOn,
    Renewals,
    Troubles,
    TroublesResolver,
    PlansResolver,
    LapsingCards,
    LapsingCardsResolver,
    TaskPlanResolver,
    KindPlanResolver,
    CareOddsHandler,
    CareOddsDesk,
    CareOddsResolver,
    ComputingResolver,
    WeekResolver,
    RingResolver,
    CallResolver,
    YardResolver,
  ],
  exports: [DemoYard, PlanShelf],
})
export class PlanningModule implements OnModuleInit {
  constructor(
    @Inject(NodeRegistry) private readonly nodes: NodeRegistry,
    @Inject(Plans) private readonly plans: Plans,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(PlanView) private readonly view: PlanView,
  ) {}

  onModuleInit(): void {
    this.view.connect(async (manager, organisationId) => {
      const told = await this.shelf.inForce(organisationId, manager);
      return told ? plannedSpans(told) : new Map();
    });
    this.nodes.register('plan', 'Plan', (ids, caller) => this.plans.byIds(caller, ids));
  }
}
