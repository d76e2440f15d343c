import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, integer, day, instant, json, oneOf } = column;

const nullable = { nullable: true };
const organisation = (options: { indexed?: boolean } = {}) =>
  ref('organisationId', 'organisation', { onDelete: 'CASCADE', ...options });
const ofTray = () => ref('trayId', 'tray', { onDelete: 'CASCADE' });

/** Trays and what is said of them, lots that were bought, repairs that pulled-through heads ask for, levels of care. */
export class Trays1764000007400 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    const unique = [['organisationId', 'ref']];
    await createTable(
      runner,
      'fastening_lot',
      [
        id(),
        organisation({ indexed: false }),
        text('ref'),
        text('name'),
        text('fastening'),
        text('size'),
        integer('count'),
        text('source'),
        integer('priceCents', nullable),
        day('cameOn'),
      ],
      { unique },
    );
    await createTable(
      runner,
      'tray',
      [
        id(),
        organisation({ indexed: false }),
        text('ref'),
        text('name'),
        text('elementKey'),
        text('place'),
        text('fastening'),
        integer('inPlace'),
        json('frames'),
        text('pullRef', nullable),
        text('driveRef', nullable),
      ],
      { unique },
    );
    await createTable(
      runner,
      'tray_entry',
      [
        id(),
        organisation(),
        ofTray(),
        integer('frame', nullable),
        json('lines'),
        json('holes'),
        integer('counted', nullable),
        ref('lotId', 'fastening_lot', nullable),
        ref('tallyId', 'tally', { nullable: true, onDelete: 'SET NULL' }),
        ref('twinId', null, { nullable: true, indexed: false }),
        text('note', nullable),
        instant('yardAt'),
        instant('enteredAt'),
        text('enteredBy'),
        ref('accountId', null, { nullable: true, indexed: false }),
        ref('correctsId', 'tray_entry', { nullable: true, onDelete: 'CASCADE', indexed: false }),
        text('reason', nullable),
      ],
      { unique: [['correctsId']] },
    );
    await createTable(runner, 'plank_repair', [
      id(),
      organisation(),
      ofTray(),
      integer('count'),
      oneOf('verdict', ['confirmed', 'declined']),
      text('taskRef', nullable),
      text('reason', nullable),
      text('decidedBy'),
      instant('yardAt'),
    ]);
    await createTable(runner, 'care_choice', [
      id(),
      organisation(),
      text('fastening'),
      oneOf('care', ['save all', 'save sound ones', 'renew']),
      text('reason'),
      text('chosenBy'),
      instant('yardAt'),
      integer('tasksChanged'),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
