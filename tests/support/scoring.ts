import { scoreVehicle, type ExperienceBefore, type VehicleScores } from '../../src/core/accuracy/scores.js';
import { atOnce } from '../../src/core/accuracy/steps.js';
import { startingExperience } from '../../src/core/forecast/experience.js';
import type { History } from '../../src/core/history.js';

const starting = startingExperience({ steeredOrFront: true, regenerative: false });

/** The scores of a whole history at once, with the starting values unless others are given. */
export function scoresOf(
  history: History,
  experienceBefore: ExperienceBefore = () => () => starting,
): VehicleScores {
  return atOnce(scoreVehicle(history, experienceBefore));
}
