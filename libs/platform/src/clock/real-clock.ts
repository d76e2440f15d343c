import { Injectable } from '@nestjs/common';

/** The time of day everywhere: for sign-in, sessions and leases. Planning reads the yard clock instead. */
@Injectable()
export class RealClock {
  /** Epoch milliseconds. */
  now(): number {
    return Date.now();
  }
}
