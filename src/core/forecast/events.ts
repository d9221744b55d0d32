import { hasStart, lookOf, type Look, type PartTracks, type Track } from './filter.js';

/** Everything that happens to an axle's parts at one distance: parts are fitted, freed or measured. */
export interface Stop {
  /** 1000 km. */
  at: number;
  /** Lives that begin, by part; fitted new or of unknown age. */
  begun: { part: number; life: Track }[];
  /** Parts freed by work on the brake. */
  freed: number[];
  looks: Look[];
}

interface PartEvent {
  at: number;
  /** Order of events at the same distance. */
  phase: number;
  add: (stop: Stop) => void;
}

/**
 * Events on the parts of an axle, ordered by distance. At the same distance, old parts are measured before work is
 * done, new parts after it.
 */
export function stopsOf(parts: readonly PartTracks[]): Stop[] {
  const events = parts.flatMap(eventsOf);
  events.sort((a, b) => a.at - b.at || a.phase - b.phase);
  const stops: Stop[] = [];
  let phase = -1;
  for (const event of events) {
    let stop = stops.at(-1);
    if (!stop || stop.at !== event.at || phase !== event.phase) {
      stop = { at: event.at, begun: [], freed: [], looks: [] };
      stops.push(stop);
    }
    phase = event.phase;
    event.add(stop);
  }
  return stops;
}

/** Readings have even phases, work has odd ones. */
function eventsOf({ lives, freedAt = [] }: PartTracks, part: number): PartEvent[] {
  const events: PartEvent[] = freedAt.map((at) => ({
    at,
    phase: 1,
    add: (stop) => stop.freed.push(part),
  }));
  let here = -Infinity;
  let phase = -1;
  const reach = (at: number, isWork: boolean): void => {
    if (at > here) {
      here = at;
      phase = isWork ? 1 : 0;
    } else if (isWork) phase += phase % 2 === 0 ? 1 : 2;
    else phase += phase % 2 === 0 ? 2 : 1;
  };
  for (const life of lives) {
    const begin = (stop: Stop) => stop.begun.push({ part, life });
    if (hasStart(life)) {
      reach(life.startAt!, true);
      events.push({ at: here, phase, add: begin });
    }
    life.at.forEach((at, index) => {
      reach(at, false);
      events.push({
        at: here,
        phase,
        add: (stop) => {
          if (index === 0 && !hasStart(life)) begin(stop);
          stop.looks.push(lookOf(part, life, index));
        },
      });
    });
  }
  return events;
}
