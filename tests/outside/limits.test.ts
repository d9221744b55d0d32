import { describe, expect, it } from 'vitest';
import { RULE_SETS } from '../../src/core/assessment/ruleSets.js';
import { CAR, isFailing, limitsOf, LORRY, type Lining } from '../support/limits.js';
import { mm } from '../support/coreHistories.js';

/**
 * Boundaries of the published rules, each derived by hand from the words and figures of its text.
 *
 * 49 CFR 393.47 (d): https://www.ecfr.gov/current/title-49/section-393.47
 * 49 CFR part 396 appendix A item 1.a(6):
 * https://www.ecfr.gov/current/title-49/subtitle-B/chapter-III/subchapter-B/part-396/appendix-Appendix%20A%20to%20Part%20396
 * 49 CFR 570.59 (c): https://www.ecfr.gov/current/title-49/section-570.59
 * DVSA, MOT inspection manual: cars and passenger vehicles, 1.1.13 and 1.1.14:
 * https://www.gov.uk/guidance/mot-inspection-manual-for-private-passenger-and-light-commercial-vehicles/1-brakes
 * Directive 2014/45/EU annex I 1.1.13 and 1.1.14, consolidated text of 27 September 2022 (its table was not opened):
 * https://eur-lex.europa.eu/legal-content/EN/TXT/?uri=CELEX:02014L0045-20220927
 * Quebec, C-24.2, r. 32, s. 31: https://www.legisquebec.gouv.qc.ca/en/document/cr/C-24.2,%20r.%2032
 */

const CFR_393 = '49-cfr-393-47';
const APPENDIX_A = '49-cfr-396-appendix-a';
const CFR_570 = '49-cfr-570-59';
const UK = 'uk-inspection-manual';
const EU = 'eu-2014-45';
const QUEBEC = 'quebec-c-24-2-r-32';

const HYDRAULIC = { actuation: 'hydraulic', lining: 'bonded' } as const;
const steeredPad: Lining = { axle: { ...HYDRAULIC, steered: true }, vehicle: LORRY };
const otherPad: Lining = { axle: { ...HYDRAULIC, steered: false }, vehicle: LORRY };

describe('a hydraulic disc pad under six rules', () => {
  const COLUMNS: [string, Lining][] = [
    ['UK 1.1.13', { ...steeredPad, vehicle: CAR, ruleSets: [UK] }],
    ['393.47 (d)(1)', { ...steeredPad, ruleSets: [CFR_393] }],
    ['393.47 (d)(2)', { ...otherPad, ruleSets: [CFR_393] }],
    ['1/16 in or less', { ...steeredPad, ruleSets: [APPENDIX_A] }],
    ['1/16 in', { ...steeredPad, ruleSets: [CFR_570] }],
    ['Quebec s. 31', { ...steeredPad, vehicle: CAR, ruleSets: [QUEBEC] }],
  ];
  it.each([
    [1.49, [true, true, true, true, true, true]],
    [1.5, [false, true, true, true, true, true]],
    [1.59, [false, true, true, false, false, true]],
    [1.6, [false, true, false, false, false, false]],
    [1.61, [false, false, false, false, false, false]],
  ])('a pad of %f mm fails the rules whose figure it is under', (thickness, fails) => {
    expect(COLUMNS.map(([name, lining]) => [name, isFailing(lining, thickness)])).toEqual(
      COLUMNS.map(([name], index) => [name, fails[index]]),
    );
  });
});

describe('a row of a rule set', () => {
  const air = (steered: boolean) => ({ actuation: 'air', steered }) as const;
  const electric = (steered: boolean) => ({ actuation: 'electric', steered }) as const;
  const hydraulic = (steered: boolean) => ({ actuation: 'hydraulic', steered }) as const;

  // Set, part, axle, figure in mm, and whether a reading at the figure fails.
  it.each([
    [CFR_393, 'shoe', air(true), 6.4, false, '(d)(1): two pads a shoe, the strictest of what could be'],
    [CFR_393, 'pad', air(true), 3.2, false, '(d)(1)'],
    [CFR_393, 'pad', hydraulic(true), 1.6, true, '(d)(1)'],
    [CFR_393, 'shoe', hydraulic(true), 1.6, true, '(d)(1)'],
    [CFR_393, 'pad', electric(true), 1.6, true, '(d)(1)'],
    [CFR_393, 'shoe', electric(true), 1.6, true, '(d)(1)'],
    [CFR_393, 'shoe', air(false), 6.4, false, '(d)(2)'],
    [CFR_393, 'pad', air(false), 3.2, false, '(d)(2)'],
    [CFR_393, 'pad', hydraulic(false), 1.6, false, '(d)(2)'],
    [CFR_393, 'shoe', hydraulic(false), 1.6, false, '(d)(2)'],
    [CFR_393, 'pad', electric(false), 1.6, false, '(d)(2)'],
    [CFR_393, 'shoe', electric(false), 1.6, false, '(d)(2)'],
    [APPENDIX_A, 'shoe', air(false), 6.35, false, '1.a(6)(c): 1/4 in'],
    [APPENDIX_A, 'shoe', hydraulic(false), 1.5875, true, '1.a(6)(c): 1/16 in'],
    [APPENDIX_A, 'shoe', electric(false), 1.5875, true, '1.a(6)(c): 1/16 in'],
    [APPENDIX_A, 'pad', air(false), 3.175, false, '1.a(6)(c): 1/8 in'],
    [APPENDIX_A, 'shoe', air(true), 6.35, false, '1.a(6)(d): 1/4 in'],
    [APPENDIX_A, 'shoe', hydraulic(true), 6.35, false, '1.a(6)(d): 1/4 in, drum'],
    [APPENDIX_A, 'pad', air(true), 3.175, false, '1.a(6)(d): 1/8 in'],
    [APPENDIX_A, 'pad', hydraulic(true), 1.5875, true, '1.a(6)(d): 1/16 in'],
    [APPENDIX_A, 'pad', electric(true), 1.5875, true, '1.a(6)(d): 1/16 in'],
    [APPENDIX_A, 'shoe', electric(true), 1.5875, true, '1.a(6)(d): 1/16 in'],
    [CFR_570, 'pad', { lining: 'bonded' }, 1.5875, false, '(c): 1/16 in over the shoe'],
    [CFR_570, 'shoe', { lining: 'bonded' }, 1.5875, false, '(c): 1/16 in over the shoe'],
    [CFR_570, 'pad', { lining: 'riveted' }, 0.79375, false, '(c): 1/32 in over the fastener'],
    [CFR_570, 'shoe', { lining: 'bolted' }, 0.79375, false, '(c): 1/32 in over the fastener'],
    [UK, 'pad', {}, 1.5, false, '1.1.13(a)(ii)'],
    [UK, 'shoe', {}, 1.5, false, '1.1.13(a)(ii)'],
    [QUEBEC, 'pad', { ...hydraulic(true), lining: 'bonded' }, 1.6, false, 's. 31(2)'],
    [QUEBEC, 'shoe', { ...electric(true), lining: 'bonded' }, 1.6, false, 's. 31(2)'],
    [QUEBEC, 'shoe', { ...air(true), lining: 'bonded' }, 5, false, 's. 31(2)'],
    [QUEBEC, 'pad', { ...air(false), lining: 'bonded' }, 5, false, 's. 31(2)'],
    [QUEBEC, 'shoe', { lining: 'riveted' }, 1, false, 's. 31(2): 1 mm above the rivets'],
    [QUEBEC, 'pad', { lining: 'bolted' }, 1, false, 's. 31(2): 1 mm above the fittings'],
  ] as const)('the row of %s on a %s of %o is %f mm, at which a reading fails: %s (%s)', (...row) => {
    const [ruleSet, part, axle, figure, failsAtFigure, section] = row;
    // The UK manual covers cars and light vans.
    const vehicle = ruleSet === UK ? CAR : LORRY;
    const lining: Lining = { part, axle, vehicle, ruleSets: [ruleSet] };
    const fails = [figure - 0.01, figure, figure + 0.01].map((thickness) => isFailing(lining, thickness));
    expect(fails).toEqual([true, failsAtFigure, false]);
    const [governing] = limitsOf(lining, null).limits;
    expect(governing).toMatchObject({ source: 'law', limitMm: figure, ruleSet, governs: true });
    expect(governing!.rule).toContain(section.split(':')[0]);
  });

  it('3/16 in holds for one strip a shoe, although a steered air drum with two pads has the same figure', () => {
    const oneStrip = RULE_SETS.flatMap(({ rules }) => rules).filter(
      ({ scope }) => scope.shoeLining === 'one strip',
    );
    expect(oneStrip).toMatchObject([{ limitMm: 4.8, printed: '4.8 mm (3/16 in)', failsAt: 'below' }]);
  });

  it.each(RULE_SETS.map((ruleSet) => [ruleSet.id, ruleSet] as const))(
    'the row of %s that prints inches equals those at 25.4 mm, or the millimetres printed beside them',
    (_id, { rules }) => {
      for (const { printed, limitMm } of rules) {
        const inches = /(\d+)\/(\d+) in/.exec(printed ?? '');
        const millimetres = /([\d.]+) mm/.exec(printed ?? '');
        const exact = inches && (Number(inches[1]) / Number(inches[2])) * 25.4;
        expect(limitMm).toBe(millimetres ? Number(millimetres[1]) : exact);
        // Where both are printed, the larger is the cautious one.
        if (exact && millimetres) expect(limitMm).toBeGreaterThan(exact);
      }
    },
  );
});

describe('the differences between appendix A and 49 CFR 393.47', () => {
  const both = (lining: Lining, thickness: number) =>
    [CFR_393, APPENDIX_A].map((ruleSet) => isFailing({ ...lining, ruleSets: [ruleSet] }, thickness));

  it('a lining of exactly 1/16 in on hydraulic drums not steered fails under the appendix alone', () => {
    const drum: Lining = { ...otherPad, part: 'shoe' };
    const at = limitsOf({ ...drum, ruleSets: [CFR_393, APPENDIX_A] }, null).limits;
    expect(at.map(({ limitMm, failsAt }) => [limitMm, failsAt])).toEqual([
      [1.6, 'below'],
      [1.5875, 'at-or-below'],
    ]);
    expect(both(drum, 1.5875)).toEqual([true, true]);
    expect(both(drum, 1.59)).toEqual([true, false]);
    expect(both(drum, 1.6)).toEqual([false, false]);
  });

  it('one of the two rules for steered air drums requires 3/16 in for one strip, the other 1/4 in for any number of strips', () => {
    const steered = (id: string) =>
      RULE_SETS.find((ruleSet) => ruleSet.id === id)!
        .rules.filter(({ scope }) => scope.steered && scope.parts.includes('shoe'))
        .filter(({ scope }) => scope.actuations?.includes('air'))
        .map(({ limitMm }) => limitMm);
    expect(steered(CFR_393)).toEqual([4.8, 6.4]);
    expect(steered(APPENDIX_A)).toEqual([6.35]);
  });

  it('the appendix has no row for hydraulic discs not steered, and the answer says so', () => {
    const { limits, reasons } = limitsOf({ ...otherPad, ruleSets: [APPENDIX_A] }, 0.5);
    expect(limits).toEqual([]);
    expect(reasons).toMatchObject([{ field: 'limits', code: 'no-rule-fits' }]);
  });
});

describe('a wear indicator', () => {
  const marked = (
    type: 'mechanical' | 'electric' | 'mark' | null,
    ruleSet: string,
    part?: 'shoe',
  ): Lining => ({
    part: part ?? 'pad',
    axle: { actuation: part ? 'air' : 'hydraulic', steered: false, lining: 'bonded' },
    vehicle: part ? LORRY : CAR,
    spec: { wearIndicator: { ...mm(7), type } },
    ruleSets: [ruleSet],
  });
  const lawful = (lining: Lining, thickness: number | null = null) =>
    limitsOf(lining, thickness).limits.filter(({ source }) => source === 'law');

  it.each([
    ['UK 1.1.13(a)(i)', UK, undefined, 1.5],
    ['EU 1.1.13(a), which prints no millimetres', EU, undefined, undefined],
    ['49 CFR 393.47 (d)(2), air drums', CFR_393, 'shoe', 6.4],
  ] as const)('a wear indicator is a limit under %s, beside any figure', (_name, ruleSet, part, figure) => {
    const limits = lawful(marked('mark', ruleSet, part), 7);
    expect(limits.map(({ limitMm, fails }) => [limitMm, fails])).toEqual([
      [7, true],
      ...(figure ? [[figure, false]] : []),
    ]);
  });

  it.each([CFR_393, APPENDIX_A, CFR_570, QUEBEC])(
    'a wear indicator is no limit under the rows for discs of %s',
    (ruleSet) => {
      const lining = { ...marked('mark', ruleSet), vehicle: LORRY };
      expect(lawful(lining).map(({ limitMm }) => limitMm)).not.toContain(7);
      expect(limitsOf(lining, null).limits[0]).toMatchObject({ source: 'wear-indicator', limitMm: 7 });
    },
  );

  it('a wear indicator that lights a lamp is not a legal limit', () => {
    expect(lawful(marked('electric', UK), 6.9)).toMatchObject([{ limitMm: 1.5, fails: false }]);
    expect(lawful(marked('electric', EU))).toEqual([]);
  });

  it('a wear indicator of unknown kind counts as a mark, and the answer says so', () => {
    const { reasons } = limitsOf(marked(null, UK), 7);
    expect(lawful(marked(null, UK)).map(({ limitMm }) => limitMm)).toEqual([7, 1.5]);
    expect(reasons.map(({ code }) => code)).toEqual(['strictest-that-could-apply']);
    expect(reasons[0]!.detail).toContain('a mark or a lamp');
  });

  it.each([UK, EU])(
    'an unrecorded wear indicator leaves the mark of %s unknown, and the answer says so',
    (ruleSet) => {
      const { reasons } = limitsOf({ ...steeredPad, vehicle: CAR, ruleSets: [ruleSet] }, 5);
      expect(reasons).toMatchObject([{ field: 'limits', code: 'mark-unknown' }]);
    },
  );
});

describe('a rotor or drum', () => {
  it('no rule set has a figure for a rotor or drum: a mark, the maker or an inspector decides', () => {
    const rules = RULE_SETS.flatMap((ruleSet) => ruleSet.rules).filter(({ scope }) =>
      scope.parts.some((part) => part === 'rotor' || part === 'drum'),
    );
    expect(rules.length).toBeGreaterThan(0);
    for (const { limitMm, decidedBy } of rules) {
      expect(limitMm).toBeNull();
      expect(['marked-figure', 'judgement']).toContain(decidedBy[0]);
    }
  });

  it('the UK does not reject a rotor for being past its maker’s limit', () => {
    const rule = RULE_SETS.flatMap(({ rules }) => rules).find(({ section }) => section === '1.1.14(a)(i)')!;
    expect(rule.clause).toContain('not a reason in itself');
  });
});
