import { NodeRegistry } from '@ribband/access';
import { CrewModule } from '@ribband/crew';
import { Database } from '@ribband/platform';
import { RepairModule, RosterView } from '@ribband/repair';
import { Inject, Module, type OnModuleInit } from '@nestjs/common';
import { In } from 'typeorm';
import { CallGates } from './call/call-gates.js';
import { Calling } from './call/calling.service.js';
import { CallingResolver } from './call/calling.resolver.js';
import { Deeds } from './deeds/deeds.service.js';
import { FireWatchResolver } from './fire-watch/fire-watch.resolver.js';
import { FireWatches } from './fire-watch/fire-watches.service.js';
import { hoursProviders } from './hours/hours.room.js';
import { OpenPlaces } from './places/open-places.service.js';
import { PlaceEntity } from './places/place.entity.js';
import { PlacesResolver } from './places/places.resolver.js';
import { Places } from './places/places.service.js';
import { Posting } from './places/posting.service.js';
import { StandIns } from './places/stand-ins.service.js';
import { seenPlaces } from './places/privacy.js';
import { FeedsResolver } from './feed/feeds.resolver.js';
import { Feeds } from './feed/feeds.service.js';
import { RosterMessages } from './news/roster-messages.js';
import { OverridesResolver } from './overrides/overrides.resolver.js';
import { StopOverrides } from './overrides/stop-overrides.service.js';
import { SwingHands } from './swing/swing-hands.service.js';
import { SwingHandsResolver } from './swing/swing-hands.resolver.js';
import { PumpLogResolver } from './pump-log/pump-log.resolver.js';
import { PumpLogs } from './pump-log/pump-log.service.js';
import { rosterSource } from './roster-source.js';
import { ClosingRounds } from './safety/closing-rounds.service.js';
import { Incidents } from './safety/incidents.service.js';
import { SafetyRoundResolver } from './safety/safety.resolver.js';
import { RosterSettingsResolver } from './settings/roster-settings.resolver.js';
import { RosterSettings } from './settings/roster-settings.service.js';
import { ClosedDaysResolver } from './turnouts/closed-days.resolver.js';
import { ClosedDays } from './turnouts/closed-days.service.js';
import { TurnoutRuleEntity } from './turnouts/turnout-rule.entity.js';
import { TurnoutsResolver } from './turnouts/turnouts.resolver.js';
import { Turnouts } from './turnouts/turnouts.service.js';
import { AllHandsResolver } from './all-hands/all-hands.resolver.js';
import { AllHandsRoles } from './all-hands/all-hands-roles.service.js';
import { AllHands } from './all-hands/all-hands.service.js';
import { WatchesResolver } from './watches/watches.resolver.js';
import { Watches } from './watches/watches.service.js';

/** When the yard works, and who is on what at each turnout. */
@Module({
  imports: [CrewModule, RepairModule],
  providers: [
    RosterMessages,
    Feeds,
    FeedsResolver,
    Turnouts,
    Deeds,
    RosterSettings,
    CallGates,
    Calling,
    Places,
    OpenPlaces,
    StandIns,
    Posting,
    SwingHands,
    SwingHandsResolver,
    TurnoutsResolver,
    PlacesResolver,
    RosterSettingsResolver,
    CallingResolver,
    ...hoursProviders,
    Incidents,
    ClosingRounds,
    SafetyRoundResolver,
    FireWatches,
    FireWatchResolver,
    PumpLogs,
    PumpLogResolver,
    StopOverrides,
    OverridesResolver,
    Watches,
    WatchesResolver,
    AllHands,
    AllHandsRoles,
    AllHandsResolver,
    ClosedDays,
    ClosedDaysResolver,
  ],
  exports: [
    RosterMessages,
    Feeds,
    Turnouts,
    Places,
    Posting,
    SwingHands,
    RosterSettings,
    CallGates,
    Calling,
    Watches,
    AllHands,
    AllHandsRoles,
  ],
})
export class RosterModule implements OnModuleInit {
  constructor(
    @Inject(NodeRegistry) private readonly nodes: NodeRegistry,
    @Inject(Database) private readonly database: Database,
    @Inject(Turnouts) private readonly turnouts: Turnouts,
    @Inject(RosterView) private readonly view: RosterView,
  ) {}

  onModuleInit(): void {
    this.view.connect(rosterSource);
    this.nodes.register('turnout', 'Turnout', (ids, { organisationId }) =>
      this.turnouts.byIds(organisationId, ids),
    );
    this.nodes.register('turnoutrule', 'TurnoutRule', (ids, { organisationId }) =>
      this.database.read.findBy(TurnoutRuleEntity, { organisationId, id: In(ids) }),
    );
    this.nodes.register('place', 'Place', async (ids, caller) =>
      seenPlaces(
        caller,
        await this.database.read.findBy(PlaceEntity, { organisationId: caller.organisationId, id: In(ids) }),
      ),
    );
  }
}
