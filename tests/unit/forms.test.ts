import { describe, expect, it } from 'vitest';
import { readLength, readNumber, readOdometer, readQuantity } from '../../src/forms/entered.js';
import { pathOf } from '../../src/forms/places.js';
import { readVehicle, vehicleFields, vehiclePatch } from '../../src/forms/vehicleForm.js';
import { fillVisit } from '../../src/forms/fillVisit.js';
import { readVisit } from '../../src/forms/readVisit.js';
import { visitForm } from '../../src/forms/visitForm.js';
import { EXAMPLE_VEHICLE, VehicleBody } from '../../src/core/vocabulary/vehicle.js';
import { EXAMPLE_VISIT, VisitBody } from '../../src/core/vocabulary/visit.js';

describe('text typed into a form', () => {
  it.each([
    ['6.5', 6.5],
    ['6,5', 6.5],
    ['7', 7],
    ['seven', undefined],
    ['6.5mm', undefined],
  ])('the text %s is read as the number %s', (text, number) => expect(readNumber(text)).toBe(number));

  it.each([
    ['61240', 61240],
    ['33,415', 33415],
    ['33.415', 33415],
    ['33 415', 33415],
    ['1.234.567', 1234567],
    ['61240,4', 61240.4],
    ['about 60000', undefined],
  ])('the text %s is read as the odometer reading %s', (text, reading) =>
    expect(readOdometer(text)).toBe(reading),
  );

  it('a fraction is accepted only if it is of an inch', () => {
    expect(readLength('9/32', 'in')).toBe(0.28125);
    expect(readLength('9/32', 'mm')).toBeUndefined();
    expect(readLength('9/0', 'in')).toBeUndefined();
  });

  it('a value may include its unit', () => {
    expect(readQuantity('11')).toEqual({ value: 11, unit: 'mm' });
    expect(readQuantity('11,5 mm')).toEqual({ value: 11.5, unit: 'mm' });
    expect(readQuantity('14 in/32')).toEqual({ value: 14, unit: 'in/32' });
    expect(readQuantity('7/16"')).toEqual({ value: 0.4375, unit: 'in' });
    expect(readQuantity('thick')).toBeUndefined();
  });

  it('a refusal’s pointer leads to its field', () => {
    expect(pathOf('#/readings/0/value')).toEqual(['readings', 0, 'value']);
    expect(pathOf('#')).toEqual([]);
  });
});

const vehicle = VehicleBody.parse(EXAMPLE_VEHICLE);
const form = visitForm({ vehicle, visits: [] });

describe('the visit form and the API’s body', () => {
  it('a filled form becomes the body that the API accepts', () => {
    const { body, places } = readVisit(form, {
      date: '2026-03-02',
      odometer: '38,052',
      odometerUnit: 'mi',
      'front.linings.gauge': 'pad-gauge',
      'front.linings.unit': 'in/32',
      'front.linings.found.left.inner': '8',
      'front.linings.found.left.outer': '9 9.5',
      'front.why': 'wheel not removed',
      'front.condition.1.what': 'slide left',
      'front.condition.1.state': 'seized',
      'front.work.pads-replaced': 'on',
      'front.work.pads-replaced.new': '11',
      'front.torque.0.left.1': '118',
      'roadTest.pulls': 'none',
      'roadTest.noise': 'no',
    });
    expect(places.errors).toEqual([]);
    expect(VisitBody.parse(body)).toMatchObject({
      odometer: { value: 38052, unit: 'mi' },
      readings: [
        { kind: 'pad-thickness', side: 'left', pad: 'inner', value: 8, unit: 'in/32', gauge: 'pad-gauge' },
        { pad: 'outer', value: 9, repeat: 1 },
        { pad: 'outer', value: 9.5, repeat: 2 },
      ],
      notMeasured: [
        { axle: 'front', side: 'right', pad: 'inner', why: 'wheel not removed' },
        { axle: 'front', side: 'right', pad: 'outer', why: 'wheel not removed' },
      ],
      conditions: [{ part: 'slide', axle: 'front', side: 'left', state: 'seized' }],
      work: [{ kind: 'pads-replaced', axle: 'front', new: { value: 11, unit: 'mm' } }],
      torques: [
        {
          fastener: 'caliper-bracket-bolt',
          axle: 'front',
          side: 'left',
          position: 1,
          value: 118,
          unit: 'Nm',
        },
      ],
      roadTest: { pulls: 'none', noise: false },
    });
  });

  it('an invalid number is reported at its field', () => {
    const { places } = readVisit(form, { odometer: 'lots', 'front.linings.found.left.inner': 'thin' });
    expect(places.errors.map(({ field }) => field)).toEqual(['odometer', 'front.linings.found.left.inner']);
  });

  it('a specification without its ticked work is refused, so that it is not lost', () => {
    const { places } = readVisit(form, { 'front.work.pads-replaced.part': 'PS-11' });
    expect(places.errors.map(({ field }) => field)).toEqual(['front.work.pads-replaced']);
  });

  it('every refusal of the service leads to a field', () => {
    const { places } = readVisit(form, {
      'front.linings.found.left.inner': '6',
      'front.linings.found.right.inner': '62',
      odometer: '5',
    });
    expect(places.fieldOf(['readings', 1, 'value'])).toBe('front.linings.found.right.inner');
    expect(places.fieldOf(['odometer'])).toBe('odometer');
    expect(places.fieldOf(['voided'])).toBeNull();
  });

  it('a form filled from a recorded visit gives that visit back, with members it has no field for', () => {
    const recorded = VisitBody.parse({
      ...EXAMPLE_VISIT,
      readings: [...EXAMPLE_VISIT.readings, { ...EXAMPLE_VISIT.readings[0], at: 'leading', value: 7.5 }],
      conditions: [{ part: 'hose', axle: 'front', side: 'left', state: 'leaking', notes: 'at the crimp' }],
    });
    const { fields, rest, restCount } = fillVisit(form, recorded);
    const again = readVisit(form, fields).body as Record<string, object[]>;
    const whole = {
      ...again,
      readings: [...again.readings!, ...(rest.readings as object[])],
      conditions: [...(again.conditions ?? []), ...(rest.conditions as object[])],
    };
    const sorted = (body: VisitBody) => [...body.readings!].map((each) => JSON.stringify(each)).sort();
    expect(sorted(VisitBody.parse(whole))).toEqual(sorted(recorded));
    expect(VisitBody.parse(whole).conditions).toEqual(recorded.conditions);
    expect(VisitBody.parse(whole).torques).toEqual(recorded.torques);
    expect(VisitBody.parse(whole).roadTest).toEqual(recorded.roadTest);
    expect(restCount).toBe(2);
  });
});

describe('the vehicle form and the API’s body', () => {
  it('a form filled from a vehicle gives that vehicle back', () => {
    const { body, places } = readVehicle(vehicleFields(vehicle));
    expect(places.errors).toEqual([]);
    const { brakeSystem, ...rest } = EXAMPLE_VEHICLE;
    expect(VehicleBody.parse(body)).toEqual(
      VehicleBody.parse({ ...rest, brakeSystem: { electricParkingBrake: brakeSystem.electricParkingBrake } }),
    );
  });

  it('a VIN in small letters and in groups is accepted', () => {
    expect(readVehicle({ vin: 'zz9fd 1004a-a000001' }).body.vin).toBe('ZZ9FD1004AA000001');
  });

  it('only changed members are sent, and members without a field stay', () => {
    const fields = { ...vehicleFields(vehicle), registration: 'KR 9', 'front.rotor.discard': '25.5' };
    expect(vehiclePatch(vehicle, readVehicle(fields).body)).toEqual({
      registration: 'KR 9',
      axles: { front: { rotor: { discard: { value: 25.5 } } } },
    });
    const { description: _, ...without } = vehicleFields(vehicle);
    expect(vehiclePatch(vehicle, readVehicle(without).body)).toEqual({ description: null });
  });
});
