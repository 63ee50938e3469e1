/** Tables of every kind of base, and free parts in every position, for checks that hold for all of them. */
import type { EffectiveSpec } from '../../src/spec/index.ts';
import { angle, freePart, joint, length, length2, length3, reedAprons, reedBase, reedLegs, specOf } from '../fixtures.ts';

const rectangle = (l: number, w: number, t: number) =>
  ({ kind: 'rectangle', length: length(l), width: length(w), thickness: length(t), sawn: 'flat', grain: 'length' }) as const;
const round = (d: number, t: number) =>
  ({ kind: 'round', diameter: length(d), thickness: length(t), sawn: 'flat', grain: 'length' }) as const;

export const tables: Readonly<Record<string, EffectiveSpec>> = {
  'four tapered legs with aprons': specOf(),
  'four splayed legs, H stretchers': specOf({
    base: {
      kind: 'legs',
      legs: { ...reedLegs, endOverhang: length(380), footEndOverhang: length(310), footSideOverhang: length(50) },
      aprons: { ...reedAprons, height: length(40), thickness: length(28) },
      stretchers: { height: length(30), thickness: length(20), at: length(150), plan: 'h' },
    },
  }),
  'legs tapered on all sides below a straight head, box stretchers': specOf({
    base: {
      kind: 'legs',
      legs: { ...reedLegs, taper: 'all', straightFor: length(120), footEndOverhang: length(300) },
      aprons: { ...reedAprons, height: length(90) },
      stretchers: { height: length(40), thickness: length(22), at: length(120), plan: 'box' },
    },
  }),
  'round legs, aprons let in': specOf({
    base: { kind: 'legs', legs: { ...reedLegs, shape: 'round', taper: 'all', footSideOverhang: length(50) }, aprons: reedAprons },
  }),
  'flared legs without aprons': specOf({
    base: { kind: 'legs', legs: { ...reedLegs, size: length(60), footSize: length(80), straightFor: length(100), taper: 'all' } },
    fixing: { kind: 'slotted-plates' },
  }),
  'oval top, chamfered, on legs': specOf({
    top: {
      kind: 'oval',
      length: length(2200),
      width: length(1050),
      thickness: length(30),
      sawn: 'quarter',
      grain: 'length',
      underChamfer: { in: length(30), up: length(15) },
    },
    base: { ...reedBase, kind: 'legs', legs: { ...reedLegs, endOverhang: length(480), sideOverhang: length(200) } },
  }),
  'slab ends, spread at the foot, stretcher': specOf({
    base: {
      kind: 'slab-ends',
      slabs: { width: length(600), thickness: length(40), endOverhang: length(300), footWidth: length(680) },
      stretcher: { height: length(110), thickness: length(30), at: length(480) },
    },
  }),
  'octagonal post on a disc': specOf({
    wood: 'cherry-black',
    height: length(737),
    top: { ...round(1219.2, 31.75), underChamfer: { in: length(60), up: length(19.05) } },
    base: {
      kind: 'pedestal',
      post: { shape: 'octagon', size: length(110), footSize: length(150) },
      foot: { kind: 'disc', diameter: length(762), thickness: length(44.45), topDiameter: length(740) },
      head: { kind: 'cross', span: length(790), width: length(76), height: length(50) },
    },
    fixing: { kind: 'slotted-screws' },
  }),
  'round post on a cross foot with steel': specOf({
    height: length(737),
    top: round(1200, 30),
    base: {
      kind: 'pedestal',
      post: { shape: 'round', size: length(120) },
      foot: { kind: 'cross', span: length(820), width: length(90), height: length(80), tipHeight: length(45), turned: true },
      head: { kind: 'disc', diameter: length(420), thickness: length(35) },
      ballast: { diameter: length(300), thickness: length(10), material: 'steel' },
    },
  }),
  'free parts: two leaning trestles with a rail': specOf({
    height: length(735),
    top: rectangle(1750, 750, 30),
    base: { kind: 'parts' },
    parts: {
      leg: freePart({
        kind: 'frustum',
        bottom: length2(45, 75),
        top: length2(45, 75),
        height: length(645),
        shift: length2(0, -90),
        at: length3(620, 300, 0),
        mirror: ['x', 'y'],
        grain: 'z',
        role: 'leg',
      }),
      bearer: freePart({ kind: 'box', size: length3(70, 660, 60), at: length3(620, 0, 645), mirror: ['x'], grain: 'y', role: 'bearer' }),
      rail: freePart({ kind: 'box', size: length3(1170, 30, 90), at: length3(0, 200, 615), role: 'rail' }),
    },
    joints: {
      legs: joint('mortise-and-tenon', 'parts/leg*', 'parts/bearer*'),
      rail: joint('bolts', 'parts/rail', 'parts/bearer*', true),
    },
  }),
  'free parts: three turned legs under a round plate': specOf({
    height: length(720),
    top: round(1100, 30),
    base: { kind: 'parts' },
    parts: {
      'leg-a': freePart({
        kind: 'frustum',
        bottom: length2(32, 32),
        top: length2(56, 56),
        height: length(650),
        shift: length2(-250, 0),
        at: length3(400, 0, 0),
        grain: 'z',
        role: 'leg',
      }),
      'leg-b': freePart({
        kind: 'frustum',
        bottom: length2(32, 32),
        top: length2(56, 56),
        height: length(650),
        shift: length2(-250, 0),
        at: length3(-200, 346.41016151377545, 0),
        turn: [{ about: 'z', by: angle(120) }],
        mirror: ['y'],
        grain: 'z',
        role: 'leg',
      }),
      plate: freePart({ kind: 'round', diameter: length(430), height: length(40), at: length3(0, 0, 650), role: 'plate' }),
    },
    joints: { legs: joint('mortise-and-tenon', 'parts/leg-*', 'parts/plate') },
  }),
  'free parts: crossed beams let into each other, standing on a drum': specOf({
    height: length(740),
    top: rectangle(1400, 800, 30),
    base: { kind: 'parts' },
    parts: {
      drum: freePart({
        kind: 'round',
        diameter: length(500),
        topDiameter: length(460),
        height: length(640),
        at: length3(0, 0, 0),
        grain: 'z',
        role: 'post',
      }),
      'beam-x': freePart({ kind: 'box', size: length3(1100, 60, 70), at: length3(0, 0, 640), role: 'bearer' }),
      'beam-y': freePart({
        kind: 'box',
        size: length3(620, 60, 70),
        at: length3(0, 0, 640),
        turn: [{ about: 'z', by: angle(90) }],
        role: 'bearer',
      }),
    },
    joints: {
      cross: joint('lap', 'parts/beam-x', 'parts/beam-y'),
      seat: joint('screws', 'parts/beam-*', 'parts/drum'),
    },
  }),
  'free parts: a post let through two beams that cross': specOf({
    height: length(740),
    top: rectangle(1300, 800, 30),
    base: { kind: 'parts' },
    parts: {
      'beam-x': freePart({ kind: 'box', size: length3(1000, 90, 80), at: length3(0, 0, 0), role: 'foot' }),
      'beam-y': freePart({ kind: 'box', size: length3(90, 700, 80), at: length3(0, 0, 0), grain: 'y', role: 'foot' }),
      post: freePart({
        kind: 'frustum',
        bottom: length2(120, 110),
        top: length2(200, 160),
        height: length(710),
        shift: length2(0, 0),
        at: length3(0, 0, 0),
        grain: 'z',
        role: 'post',
      }),
    },
    joints: {
      cross: joint('lap', 'parts/beam-x', 'parts/beam-y'),
      post: joint('bridle', 'parts/post', 'parts/beam-*'),
    },
  }),
  'free parts: an outline with a hole, stood up': specOf({
    height: length(740),
    top: rectangle(1500, 800, 28),
    base: { kind: 'parts' },
    parts: {
      end: freePart({
        kind: 'extruded',
        outline: [
          length2(-340, 0),
          length2(-220, 0),
          length2(0, 120),
          length2(220, 0),
          length2(340, 0),
          length2(260, 712),
          length2(-260, 712),
        ],
        holes: [[length2(-90, 400), length2(90, 400), length2(60, 560), length2(-60, 560)]],
        height: length(36),
        at: length3(500, 0, 0),
        turn: [
          { about: 'x', by: angle(90) },
          { about: 'z', by: angle(90) },
        ],
        mirror: ['x'],
        grain: 'y',
        role: 'panel',
      }),
      rail: freePart({ kind: 'box', size: length3(1000, 30, 90), at: length3(0, 0, 250), role: 'stretcher' }),
    },
    joints: { rail: joint('mortise-and-tenon', 'parts/rail', 'parts/end*') },
  }),
};
