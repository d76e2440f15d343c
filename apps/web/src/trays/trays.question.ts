import { graphql } from '../gql/gql.js';
import type { TrayQuery, TraysQuery } from '../gql/graphql.js';

export const TraysQuestion = graphql(`
  query Trays {
    trays {
      id
      name
      place
      fastening
      inPlace
      balance {
        stillIn
        notGraded
        inTray
        driven
      }
      wanting
    }
    fasteningKinds {
      fastening
      balance {
        ...Balance
      }
      toDrive
      inLots
      scrapShare
      likelyShort
      nineInTenShort
      wanting
      planned {
        orderWords
        pulledFrom
        pulledUntil
        drivenFrom
        drivenUntil
      }
    }
    lots {
      id
      name
      fastening
      size
      count
      left
      source
      priceCents
      cameOn
    }
  }
  fragment Balance on TrayBalanceType {
    inPlace
    stillIn
    drawn
    pulledThrough
    cut
    stubsWaiting
    received
    lent
    notGraded
    sound
    scrapped
    lost
    bought
    driven
    inTray
  }
`);

export type ListedTray = TraysQuery['trays'][number];
export type Kind = TraysQuery['fasteningKinds'][number];
export type Lot = TraysQuery['lots'][number];
export type Balance = Kind['balance'];

export const TrayQuestion = graphql(`
  query Tray($id: ID!) {
    tray(id: $id) {
      ...WholeTray
    }
    lots {
      id
      name
      size
      fastening
      left
    }
    trays {
      id
      name
      fastening
    }
  }
  fragment WholeTray on Tray {
    id
    name
    place
    fastening
    inPlace
    balance {
      ...Balance
    }
    frames {
      frame
      inPlace
      stillIn
      drawn
      pulledThrough
      cut
    }
    countedOff
    wanting
    repairsWaiting
    newHoles {
      graded
      newHoles
      inNewWood
    }
    holes {
      key
      name
      frame
      nail
      hole
      plugTenths
      inNewWood
      says
    }
    entries {
      id
      at
      words
      frame
      lines {
        kind
        count
        reason
      }
      holes
      counted
      lotId
      note
      by
      correctedById
      reason
      mayCorrect
    }
    pullTask {
      id
      title
      state
      cautionLines {
        words
        basis
      }
      safetyNotice
    }
    driveTask {
      id
      title
      state
    }
  }
`);

export type Tray = NonNullable<TrayQuery['tray']>;
export type Entry = Tray['entries'][number];
export type Hole = Tray['holes'][number];
