import type { History, HistoryVisit } from '../history.js';
import type { Finding } from '../vocabulary/wear.js';

type RoadTest = NonNullable<HistoryVisit['roadTest']>;

/** The questions of a road test. */
export const QUESTIONS = ['pulls', 'pulsation', 'noise'] as const;

/** The questions that none of the road tests answers. */
export const unansweredBy = (tests: readonly RoadTest[]): (typeof QUESTIONS)[number][] =>
  QUESTIONS.filter((question) => tests.every((test) => test[question] == null));

/** Findings of road tests; each stays open until a later road test answers the same question with no. */
export function roadTestFindings({ visits }: History): Finding[] {
  const findings: Finding[] = [];
  const say = (code: string, message: string, check: string): void => {
    findings.push({
      code,
      axle: null,
      side: null,
      pad: null,
      severity: 'check',
      message,
      check,
      numbers: {},
    });
  };
  const pull = latestAnswer(visits, ({ pulls }) => pulls);
  if (pull && pull.answer !== 'none') {
    say(
      'road-test-pulls',
      `On the road test of ${pull.date} the vehicle pulled to the ${pull.answer} under braking.`,
      'Compare pads, slides, pistons, hoses and tyre pressures of both sides, then road-test again.',
    );
  }
  const pulsation = latestAnswer(visits, (test) => test.pulsation);
  if (pulsation?.answer) {
    say(
      'road-test-pulsation',
      `On the road test of ${pulsation.date} the brakes pulsated.`,
      'Measure thickness variation and run-out, or the diameter of drums at several points, then road-test again.',
    );
  }
  const noise = latestAnswer(visits, (test) => test.noise);
  if (noise?.answer) {
    say(
      'road-test-noise',
      `On the road test of ${noise.date} the brakes were noisy.`,
      'Measure the linings, check wear indicators, hardware and rotor faces, then road-test again.',
    );
  }
  return findings;
}

/** The latest answer to one question of the road test; null if never answered. */
function latestAnswer<Answer>(
  visits: readonly HistoryVisit[],
  of: (test: RoadTest) => Answer | null | undefined,
): { answer: Answer; date: string } | null {
  for (const { roadTest, date } of [...visits].reverse()) {
    const answer = roadTest && of(roadTest);
    if (answer != null) return { answer, date };
  }
  return null;
}
