import type { CodeEntry } from './entry.ts';

/** Codes of tables that can not be built. */
export const designCodes: Readonly<Record<`design/${string}`, CodeEntry>> = {
  'design/chamfer-too-large': {
    title: 'a chamfer takes the whole edge or the whole underside',
    explain: 'What is cut away under the edge must leave some of the thickness, and some of the underside.',
  },
  'design/no-height-left': {
    title: 'parts that share the height are together higher than the table',
    explain: 'Everything under the top must fit between the floor and its underside: overall height less thickness.',
  },
  'design/leg-outside-top': {
    title: 'a leg, a slab end or a head stands out from under the top',
    explain:
      'Overhangs run from the outline of the top to the outer face, and for round and oval tops from the rectangle around it. Feet may stand outside; what carries the top may not.',
  },
  'design/legs-collide': {
    title: 'legs or slab ends run into each other',
    explain: 'Overhangs and thicknesses of both ends, or of both sides, add up to more than the top.',
  },
  'design/rail-has-no-space': {
    title: 'an apron or a stretcher has no space between its legs',
    explain: 'From shoulder to shoulder nothing is left at its height.',
  },
  'design/apron-beside-leg': {
    title: 'aprons stand out behind the legs',
    explain:
      'Set back and thickness together are more than the leg is thick, so that part of the end of each apron meets nothing. In a round leg the inner arrises must still meet the round.',
  },
  'design/cross-has-no-arms': {
    title: 'crossed arms are as wide as they are long',
    explain: 'Two beams are halved across each other; their width must be less than their span.',
  },
  'design/tip-too-high': {
    title: 'the tips of a cross foot are higher than its middle',
    explain: 'The arms fall from the post to the tips, or stay level.',
  },
  'design/ballast-too-thick': {
    title: 'a steel plate is as thick as the foot',
    explain: 'It is let into the underside, flush, and wood must be left above it.',
  },
  'design/ballast-too-wide': {
    title: 'a steel plate is as wide as the foot',
    explain: 'It is let into the underside, and wood must be left around it.',
  },
  'design/post-wider-than-foot': {
    title: 'a post is wider than what it stands on',
    explain: 'The shoulder of the post must land on the foot.',
  },
  'design/outline-crosses-itself': {
    title: 'an outline crosses itself, or a hole leaves it',
    explain: 'Corners go in order around the shape, either way; holes lie inside and do not touch each other.',
  },
  'design/id-taken': {
    title: "a mirror image would have another part's name",
    explain: 'Mirror images are called like their part with -2, -3 or -4 behind it.',
  },
  'design/unknown-wood': {
    title: 'a wood is not in the library',
    explain: 'Woods are kept in templates/woods.yaml, with their density and movement; a workspace may add its own.',
  },
  'design/unknown-material': {
    title: 'a material is not in the library',
    explain: 'Steel, glass and stone are kept with their density; a workspace may add its own.',
  },
  'design/unknown-part': {
    title: 'a joint or a state names a part that is not there',
    explain:
      'Parts of the base are called base/leg-front-left and so on, free parts parts/ and their name, the top top. A * at the end stands for all that begin so.',
  },
  'design/joint-without-contact': {
    title: 'parts that are to be joined do not touch',
    explain:
      'A joint needs plane faces that meet within 0.05 mm over at least 1 mm2, or one part let into the other. With * at the end of a name, only those that meet are joined, and at least one pair must.',
  },
  'design/touch-without-joint': {
    title: 'two parts touch, and no joint holds them',
    explain:
      'Free parts list their joints. Where one part only lies on another, say so with kind: rests. What lies under the top is held by the fixing.',
  },
  'design/parts-overlap': {
    title: 'two parts are in the same place without a joint',
    explain:
      'More than 1 mm3 of wood would have to be in two parts at once. With a joint, one is let into the other and the wood counts once.',
  },
  'design/reaches-into-top': {
    title: 'a part reaches above the underside of the top',
    explain: 'What carries the top ends at overall height less thickness; a chamfer under the edge leaves less room near the edge.',
  },
  'design/top-not-carried': {
    title: 'nothing touches the underside of the top',
    explain: 'The base must reach it, with a flat that meets it within 0.05 mm.',
  },
  'design/not-on-floor': {
    title: 'nothing touches the floor',
    explain: 'At least one part must begin at height 0.',
  },
  'design/below-floor': {
    title: 'a part reaches below the floor',
    explain: 'Heights run from the floor, and nothing may lie under it.',
  },
  'design/foot-not-flat': {
    title: 'a foot stands on an edge or a point',
    explain: 'A leg that is turned to lean stands on an edge unless its foot is cut level; stability is computed from the edge alone.',
  },
  'design/foot-above-floor': {
    title: 'a leg or a foot ends just above the floor',
    explain: 'The table stands on the others alone. Where it is meant, its role is not leg, slab or foot.',
  },
  'design/hangs-in-air': {
    title: 'a part hangs in the air',
    explain: 'Each part must stand on the floor or touch others that do.',
  },
  'design/fixings-not-placed': {
    title: 'not all fixings find a place',
    explain: 'Fixings sit where the base really touches the underside of the top.',
  },
};
