import { graphql } from '../gql/gql.js';
import type { TimberQuery } from '../gql/graphql.js';

export const TimberQuestion = graphql(`
  query Timber {
    timberBook {
      restsAtPercent
      shapeIsMeasured
      isLayingUp
      layUpFailure
      settings {
        version
        fahrenheit
        humidity
        plankingPercent
        framesPercent
        usableShare
        poundsACubicFoot
        sawMarginMillimetres
        grainRunOut
        leadDays
        changedBy
        changedReason
      }
      wood {
        piece
        name
        use
        standing
        flitchId
        fromOn
        why
        expectedOn
        shape {
          length
          slabWidth
          thickness
          sweep
          sweepAt
          boardFeet
          pounds
          carriers
          liftingGear
          points
        }
      }
      flitches {
        id
        version
        mark
        species
        use
        lies
        expectedOn
        reservedFor
        usedOn
        wetness
        taped {
          thickness
          length
          widths
          sweep
          sapwood
          defects {
            along
            across
            length
            width
          }
        }
        drawing {
          outline
          grain
          defects
        }
        readings {
          id
          on
          percent
          withdrawnReason
        }
        ready {
          on
          why
        }
        source {
          id
          name
        }
        log {
          id
          mark
        }
      }
      logs {
        id
        version
        mark
        species
        diameterInches
        lengthFeet
        cameOn
        reservedFor
        note
        source {
          id
          name
        }
        gives {
          usableInches
          squareInches
          futtocksLow
          futtocksHigh
          planksLow
          planksHigh
          pounds
          scales {
            rule
            source
            boardFeet
          }
        }
      }
      sources {
        id
        version
        name
        kind
        note
        thankedOn
        thankedBy
      }
      trips {
        id
        wentOn
        whereTo
        personMinutes
        names
        found
      }
      kept {
        ...LayUpWords
      }
      proposed {
        ...LayUpWords
      }
    }
  }
  fragment LayUpWords on LayUpType {
    id
    madeOn
    keptBy
    wanting
    yieldShare
    placed {
      piece
      name
      flitchId
      points
      turnedOver
      grainRunOut
    }
  }
`);

export type Book = NonNullable<TimberQuery['timberBook']>;
export type Wood = Book['wood'][number];
export type Flitch = Book['flitches'][number];
export type Log = Book['logs'][number];
export type LayUp = NonNullable<Book['kept']>;
