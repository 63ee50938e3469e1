import type { Problem, SpecPath } from '../../problem/index.ts';
import type { Solid } from '../../solid/index.ts';
import { cone, frustum, IDENTITY, octagonalPost } from '../../solid/index.ts';
import type { EffectiveSpec, PedestalBase } from '../../spec/index.ts';
import { type BaseDraft, type JointDraft, ownJoint, type PartDraft } from '../draft.ts';
import { amountsFor, refuse } from '../refuse.ts';
import { planMm } from '../tops/top.ts';
import { crossArms } from './cross.ts';

const POST = 'base/post';
const BALLAST = 'base/ballast';

/** Tenon of a post, as a share of what it enters; common practice. */
const POST_TENON_SHARE = 0.75;

const footHeightMm = ({ foot }: PedestalBase): number => (foot.kind === 'disc' ? foot.thickness.mm : foot.height.mm);
const headHeightMm = ({ head }: PedestalBase): number => (head.kind === 'disc' ? head.thickness.mm : head.height.mm);

/** One post on a disc or a cross, crossed bearers or a round plate under the top, and a steel plate let into the foot where asked. */
export function makePedestal(spec: EffectiveSpec, base: PedestalBase): BaseDraft {
  const undersideMm = spec.table.height.mm - spec.table.top.thickness.mm;
  const footMm = footHeightMm(base);
  const headMm = headHeightMm(base);
  const foot = makeFoot(spec, base);
  const head = makeHead(spec, base, undersideMm - headMm);
  const post = makePost(spec, base, footMm, undersideMm - headMm - footMm);
  const footFrom: SpecPath = ['table', 'base', 'foot'];
  const headFrom: SpecPath = ['table', 'base', 'head'];
  // The tenon goes into the piece that is whole at the crossing's face; on the other one the post's shoulder rests.
  const joints: JointDraft[] = [];
  const [footA, footB] = foot;
  const footTenon = Math.round(footMm * POST_TENON_SHARE);
  if (footA !== undefined && footB === undefined) joints.push(ownJoint('mortise-and-tenon', POST, footA.id, footFrom, footTenon));
  if (footA !== undefined && footB !== undefined) {
    joints.push(
      ownJoint('lap', footA.id, footB.id, footFrom),
      ownJoint('mortise-and-tenon', POST, footB.id, footFrom, footTenon),
      ownJoint('rests', POST, footA.id, footFrom),
    );
  }
  const [headA, headB] = head;
  const headTenon = Math.round(headMm * POST_TENON_SHARE);
  if (headA !== undefined && headB === undefined) joints.push(ownJoint('mortise-and-tenon', POST, headA.id, headFrom, headTenon));
  if (headA !== undefined && headB !== undefined) {
    joints.push(
      ownJoint('lap', headA.id, headB.id, headFrom),
      ownJoint('mortise-and-tenon', POST, headA.id, headFrom, headTenon),
      ownJoint('rests', POST, headB.id, headFrom),
    );
  }
  const ballast = makeBallast(base);
  if (ballast !== undefined) joints.push(...foot.map((f) => ownJoint('screws', BALLAST, f.id, ballast.from)));
  return { parts: [...foot, post, ...head, ...(ballast === undefined ? [] : [ballast])], joints };
}

function makePost(spec: EffectiveSpec, base: PedestalBase, bottomMm: number, heightMm: number): PartDraft {
  const { shape, size, footSize, wood } = base.post;
  const bottom = footSize?.mm ?? size.mm;
  const solids: Readonly<Record<typeof shape, () => Solid>> = {
    round: () => cone(bottom, size.mm, heightMm),
    square: () => frustum([bottom, bottom], [size.mm, size.mm], heightMm),
    octagon: () => octagonalPost(bottom, size.mm, heightMm),
  };
  return {
    id: POST,
    role: 'post',
    name: 'part.post',
    stuff: wood ?? spec.table.wood,
    solid: solids[shape](),
    placement: { originMm: [0, 0, bottomMm], axes: IDENTITY },
    grainAlong: [0, 0, 1],
    across: [1, 0, 0],
    sawn: 'flat',
    features: [
      ...(bottom === size.mm ? [] : (['tapered'] as const)),
      ...(shape === 'round' ? (['round'] as const) : []),
      ...(shape === 'octagon' ? (['octagonal'] as const) : []),
    ],
    from: ['table', 'base', 'post'],
  };
}

function makeFoot(spec: EffectiveSpec, base: PedestalBase): readonly PartDraft[] {
  const { foot } = base;
  const common = {
    role: 'foot',
    name: 'part.foot',
    stuff: foot.wood ?? spec.table.wood,
    from: ['table', 'base', 'foot'],
  } as const;
  if (foot.kind === 'disc') return [roundPlate('base/foot', common, foot.diameter.mm, foot.topDiameter?.mm, foot.thickness.mm, 0)];
  const postMm = base.post.footSize?.mm ?? base.post.size.mm;
  return crossArms(
    {
      spanMm: foot.span.mm,
      widthMm: foot.width.mm,
      heightMm: foot.height.mm,
      tipMm: foot.tipHeight?.mm ?? foot.height.mm,
      flatMm: Math.min(foot.span.mm, Math.max(foot.width.mm, postMm)) / 2,
      bottomMm: 0,
      turnedDeg: foot.turned ? 45 : 0,
    },
    ['base/foot-arm', 'base/foot-arm-2'],
    common,
  );
}

function makeHead(spec: EffectiveSpec, base: PedestalBase, bottomMm: number): readonly PartDraft[] {
  const { head } = base;
  const common = { stuff: head.wood ?? spec.table.wood, from: ['table', 'base', 'head'] } as const;
  if (head.kind === 'disc') {
    const named = { ...common, role: 'plate', name: 'part.plate' } as const;
    return [roundPlate('base/head', named, head.diameter.mm, undefined, head.thickness.mm, bottomMm)];
  }
  const shape = {
    spanMm: head.span.mm,
    widthMm: head.width.mm,
    heightMm: head.height.mm,
    tipMm: head.height.mm,
    flatMm: head.width.mm / 2,
    bottomMm,
    turnedDeg: 0,
  };
  return crossArms(shape, ['base/bearer', 'base/bearer-2'], { ...common, role: 'bearer', name: 'part.bearer' });
}

function roundPlate(
  id: string,
  common: Pick<PartDraft, 'role' | 'name' | 'stuff' | 'from'>,
  diameterMm: number,
  topDiameterMm: number | undefined,
  thicknessMm: number,
  bottomMm: number,
): PartDraft {
  return {
    ...common,
    id,
    solid: cone(diameterMm, topDiameterMm ?? diameterMm, thicknessMm),
    placement: { originMm: [0, 0, bottomMm], axes: IDENTITY },
    grainAlong: [1, 0, 0],
    across: [0, 1, 0],
    sawn: 'flat',
    features: topDiameterMm === undefined || topDiameterMm === diameterMm ? ['round'] : ['round', 'chamfered'],
  };
}

function makeBallast(base: PedestalBase): PartDraft | undefined {
  if (base.ballast === undefined) return undefined;
  const { diameter, thickness, material } = base.ballast;
  const from: SpecPath = ['table', 'base', 'ballast'];
  const disc = roundPlate(BALLAST, { role: 'plate', name: 'part.ballast', stuff: material, from }, diameter.mm, undefined, thickness.mm, 0);
  return { ...disc, isMaterial: true };
}

/** Post, foot and head must leave each other height; what lies under the top must not stand out from it; steel must fit into the foot. */
export function checkPedestal(spec: EffectiveSpec, base: PedestalBase): readonly Problem[] {
  const { length } = amountsFor(spec);
  const undersideMm = spec.table.height.mm - spec.table.top.thickness.mm;
  const left = undersideMm - footHeightMm(base) - headHeightMm(base);
  const { lengthMm, widthMm } = planMm(spec.table.top);
  const { foot, head, ballast, post } = base;
  const problems: Problem[] = [];
  if (left <= 0) {
    problems.push(
      refuse('design/no-height-left', 'foot and head leave no height for the post', ['table', 'base', 'post'], {
        found: `${length(footHeightMm(base))} of foot and ${length(headHeightMm(base))} of head under a top at ${length(undersideMm)}`,
        allowed: `together less than ${length(undersideMm)}`,
      }),
    );
  }
  const reach = head.kind === 'disc' ? head.diameter : head.span;
  const fits = Math.min(lengthMm, widthMm);
  if (reach.mm > fits) {
    problems.push(
      refuse(
        'design/leg-outside-top',
        `the head stands out from under the top by ${length((reach.mm - fits) / 2)}`,
        ['table', 'base', 'head', head.kind === 'disc' ? 'diameter' : 'span'],
        {
          found: reach.written,
          allowed: `at most ${length(fits)}`,
        },
      ),
    );
  }
  if (foot.kind === 'cross' && foot.width.mm >= foot.span.mm) {
    problems.push(
      refuse('design/cross-has-no-arms', 'the arms of the foot are as wide as the foot', ['table', 'base', 'foot', 'width'], {
        found: foot.width.written,
        allowed: `less than the span, ${foot.span.written}`,
      }),
    );
  }
  if (head.kind === 'cross' && head.width.mm >= head.span.mm) {
    problems.push(
      refuse('design/cross-has-no-arms', 'the bearers of the head are as wide as they are long', ['table', 'base', 'head', 'width'], {
        found: head.width.written,
        allowed: `less than the span, ${head.span.written}`,
      }),
    );
  }
  if (foot.kind === 'cross' && foot.tipHeight !== undefined && foot.tipHeight.mm > foot.height.mm) {
    problems.push(
      refuse('design/tip-too-high', 'the tips of the foot are higher than its middle', ['table', 'base', 'foot', 'tipHeight'], {
        found: foot.tipHeight.written,
        allowed: `at most ${foot.height.written}`,
      }),
    );
  }
  if (ballast !== undefined && ballast.thickness.mm >= footHeightMm(base)) {
    problems.push(
      refuse(
        'design/ballast-too-thick',
        'the steel plate is as thick as the foot that it is let into',
        ['table', 'base', 'ballast', 'thickness'],
        {
          found: ballast.thickness.written,
          allowed: `less than ${length(footHeightMm(base))}`,
        },
      ),
    );
  }
  if (ballast !== undefined && foot.kind === 'disc' && ballast.diameter.mm >= foot.diameter.mm) {
    problems.push(
      refuse(
        'design/ballast-too-wide',
        'the steel plate is as wide as the foot that it is let into',
        ['table', 'base', 'ballast', 'diameter'],
        {
          found: ballast.diameter.written,
          allowed: `less than ${foot.diameter.written}`,
        },
      ),
    );
  }
  const postMm = post.footSize?.mm ?? post.size.mm;
  const onto = foot.kind === 'disc' ? (foot.topDiameter ?? foot.diameter).mm : foot.span.mm;
  if (postMm > onto) {
    problems.push(
      refuse(
        'design/post-wider-than-foot',
        `the post is ${length(postMm - onto)} wider than the foot that it stands on`,
        ['table', 'base', 'post', post.footSize === undefined ? 'size' : 'footSize'],
        {
          found: (post.footSize ?? post.size).written,
          allowed: `at most ${length(onto)}`,
        },
      ),
    );
  }
  return problems;
}
