import { Accounts, Organisations, Passwords, type Role } from '@ribband/access';
import { idsByRef, Volunteer } from '@ribband/crew';
import { Database, localToInstant, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { readYard } from '../yard/checks.js';
import { YardBook } from '../yard/yard-book.service.js';

/** Who signs in at the demo yard, by their key in its document. */
const demoPeople: Record<Role, string> = {
  director: 'thandeka-orrill',
  coordinator: 'perrin-vaskell',
  shipwright: 'odalys-brenn',
  volunteer: 'lachlan-birse',
};

/** Somebody who can sign in at the demo yard. */
export interface DemoPerson {
  role: Role;
  name: string;
  email: string;
}

/** Sets the invented yard up that comes with the program. */
@Injectable()
export class DemoYard {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Organisations) private readonly organisations: Organisations,
    @Inject(Accounts) private readonly accounts: Accounts,
    @Inject(Passwords) private readonly passwords: Passwords,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(YardBook) private readonly book: YardBook,
  ) {}

  /**
   * Reads the demo yard in through the same door as any other, in one transaction: its clock stands at seven in the
   * morning of the haul-out, four people can sign in, and a plan is asked for.
   * @param value the yard document
   * @param password of all four
   * @throws when the document has a fault
   */
  async seed(value: unknown, password: string): Promise<DemoPerson[]> {
    const read = readYard(value);
    if ('faults' in read) {
      const told = read.faults.slice(0, 5).map((fault) => `${fault.path} ${fault.message}`);
      throw new Error(`The demo yard has faults: ${told.join('; ')}`);
    }
    const { document } = read;
    const passwordHash = await this.passwords.hash(password);
    return this.database.write(async (manager) => {
      const { id } = await this.organisations.found(manager, { ...document.organisation, isDemo: true });
      const { hauledOutOn, timeZone } = document.haulOut;
      await this.clock.set(manager, id, localToInstant(hauledOutOn, '07:00', timeZone));
      const reader = { organisationId: id, accountId: null, name: 'the demo yard' };
      await this.book.write(manager, reader, document, false);
      const volunteerIds = await idsByRef(manager, Volunteer, id);
      const people: DemoPerson[] = [];
      for (const [role, ref] of Object.entries(demoPeople) as [Role, string][]) {
        const person = document.volunteers.find((one) => one.ref === ref);
        if (!person?.email) throw new Error(`The demo yard has nobody ${ref} with an address`);
        const { name, email } = person;
        const account = { email, name, role, volunteerId: volunteerIds.get(ref) ?? null };
        await this.accounts.openWith(manager, id, account, passwordHash);
        people.push({ role, name, email });
      }
      return people;
    });
  }
}
