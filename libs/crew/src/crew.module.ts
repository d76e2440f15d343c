import { NodeRegistry } from '@ribband/access';
import { Database, Recipients } from '@ribband/platform';
import { Inject, Module, type OnModuleInit } from '@nestjs/common';
import { In } from 'typeorm';
import { AvailabilityResolver } from './availability/availability.resolver.js';
import { CalendarImportResolver } from './availability/calendar-import.resolver.js';
import { Availability } from './availability/availability.service.js';
import { CardKind } from './cards/card-kind.entity.js';
import { CardReminders } from './cards/card-reminders.js';
import { CardsResolver } from './cards/cards.resolver.js';
import { Cards } from './cards/cards.service.js';
import { contactFinder, findAccount, findGuardian, findVolunteer } from './news/contacts.js';
import { NewsResolver } from './news/news.resolver.js';
import { NewsDesk } from './news/news.service.js';
import { Consents } from './consent/consents.service.js';
import { ConsentsResolver } from './consent/consents.resolver.js';
import { FamilyNews } from './consent/family-news.js';
import { PhonesResolver } from './phones/phones.resolver.js';
import { Phones } from './phones/phones.service.js';
import { WishesResolver } from './wishes/wishes.resolver.js';
import { WishBook } from './wishes/wishes.service.js';
import { Skill } from './skills/skill.entity.js';
import { SkillsResolver } from './skills/skills.resolver.js';
import { Purposes } from './purposes/purposes.service.js';
import { PurposesResolver } from './purposes/purposes.resolver.js';
import { Skills } from './skills/skills.service.js';
import { VolunteersResolver } from './volunteers/volunteers.resolver.js';
import { Volunteers } from './volunteers/volunteers.service.js';
import { YardDay } from './yard/yard-day.js';
import { MyVolunteerResolver, YardTodayResolver } from './yard/yard.resolver.js';

/** The people: what they can do, what they may do, when they can come. */
@Module({
  providers: [
    YardDay,
    Volunteers,
    Skills,
    Purposes,
    PurposesResolver,
    Cards,
    CardReminders,
    Availability,
    NewsDesk,
    WishBook,
    Phones,
    PhonesResolver,
    CalendarImportResolver,
    Consents,
    FamilyNews,
    WishesResolver,
    ConsentsResolver,
    NewsResolver,
    VolunteersResolver,
    SkillsResolver,
    CardsResolver,
    AvailabilityResolver,
    YardTodayResolver,
    MyVolunteerResolver,
  ],
  exports: [FamilyNews, Phones, YardDay, Volunteers, Availability, Cards],
})
export class CrewModule implements OnModuleInit {
  constructor(
    @Inject(NodeRegistry) private readonly nodes: NodeRegistry,
    @Inject(Database) private readonly database: Database,
    @Inject(Volunteers) private readonly people: Volunteers,
    @Inject(Recipients) private readonly recipients: Recipients,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  onModuleInit(): void {
    this.recipients.register('volunteer', contactFinder(this.yardDay, findVolunteer));
    this.recipients.register('guardian', contactFinder(this.yardDay, findGuardian));
    this.recipients.register('account', contactFinder(this.yardDay, findAccount));
    const inTheYard = (ids: string[], organisationId: string) => ({ organisationId, id: In(ids) });
    this.nodes.register('volunteer', 'Volunteer', (ids, caller) => this.people.seenBy(caller, ids));
    this.nodes.register('skill', 'Skill', (ids, caller) =>
      this.database.read.findBy(Skill, inTheYard(ids, caller.organisationId)),
    );
    this.nodes.register('cardkind', 'CardKind', (ids, caller) =>
      this.database.read.findBy(CardKind, inTheYard(ids, caller.organisationId)),
    );
  }
}
