import { describe, expect, test } from 'vitest';
import type { Part, Table } from '../../src/design/index.ts';
import { designTable, partMassKg, partVolume } from '../../src/design/index.ts';
import type { Vec3 } from '../../src/solid/index.ts';
import { boundsMm, cross as crossed, dot, isInLoop, meshOf, norm, subtract } from '../../src/solid/index.ts';
import { type Manifold, manifold, placedBody } from '../solid/oracle.ts';
import { tables } from './tables.ts';

function built(name: string): Table {
  const spec = tables[name];
  if (spec === undefined) throw new Error(name);
  const { table, problems } = designTable(spec);
  expect(problems).toEqual([]);
  if (table === undefined) throw new Error('no table');
  return table;
}

/** Bodies of the kernel are costly and never change: one for each part of each table. */
const made = new Map<string, Manifold>();

function bodies(parts: readonly Part[]): Manifold[] {
  return parts.map((part) => {
    const key = JSON.stringify([part.solid, part.placement]);
    const body = made.get(key) ?? placedBody(part.solid, part.placement, 0.012);
    made.set(key, body);
    return body;
  });
}

describe.each(Object.keys(tables))('%s', (name) => {
  test('no problem at all, not even a warning', () => {
    built(name);
  });

  test('wood counts once: parts add up to the volume of their union by the kernel', () => {
    const { parts } = built(name);
    const union = manifold.Manifold.union(bodies(parts)).volume();
    const sum = parts.reduce((s, p) => s + partVolume(p).volumeMm3, 0);
    expect(Math.abs(sum / union - 1)).toBeLessThan(1e-4);
  });

  test('mass and centre of gravity by the kernel within 0.01 % and 0.05 mm', () => {
    const { parts } = built(name);
    let [kg, mx, my, mz] = [0, 0, 0, 0];
    for (const part of parts) {
      const { volumeMm3, centroidMm } = partVolume(part);
      const m = volumeMm3 * 1e-9 * part.densityKgM3;
      expect(partMassKg(part)).toBeCloseTo(m, 12);
      kg += m;
      [mx, my, mz] = [mx + m * centroidMm[0], my + m * centroidMm[1], mz + m * centroidMm[2]];
    }
    // By triangles of the kernel's own bodies: each solid once, heavier ones first, what is shared taken off the later ones.
    let [kernelKg, kx, ky, kz] = [0, 0, 0, 0];
    const order = [...parts].sort((a, b) => b.densityKgM3 - a.densityKgM3);
    let before: Manifold | undefined;
    bodies(order).forEach((body, i) => {
      const own = before === undefined ? body : body.subtract(before);
      before = before === undefined ? body : before.add(body);
      const { volume, moment } = momentsOf(own);
      const m = volume * 1e-9 * (order[i]?.densityKgM3 ?? 0);
      kernelKg += m;
      const share = m / volume;
      [kx, ky, kz] = [kx + share * moment[0], ky + share * moment[1], kz + share * moment[2]];
    });
    expect(Math.abs(kg / kernelKg - 1)).toBeLessThan(1e-4);
    expect(Math.abs(mx / kg - kx / kernelKg)).toBeLessThan(0.05);
    expect(Math.abs(my / kg - ky / kernelKg)).toBeLessThan(0.05);
    expect(Math.abs(mz / kg - kz / kernelKg)).toBeLessThan(0.05);
  });

  test('parts fill exactly the table: floor to height, no overlap that no joint explains', () => {
    const { parts, joints, top } = built(name);
    const boxes = parts.map((p) => boundsMm(p.solid, p.placement));
    expect(Math.min(...boxes.map((b) => b.minMm[2]))).toBeCloseTo(0, 9);
    expect(Math.max(...boxes.map((b) => b.maxMm[2]))).toBeCloseTo(top.heightMm, 9);
    const all = bodies(parts);
    parts.forEach((a, i) => {
      parts.slice(i + 1).forEach((b, k) => {
        const held = joints.some((j) => (j.a === a.id && j.b === b.id) || (j.a === b.id && j.b === a.id));
        if (!held) expect((all[i] as Manifold).intersect(all[i + 1 + k] as Manifold).volume()).toBeLessThan(1);
      });
    });
  });

  test('each joint has a plane contact that lies on both parts', () => {
    const { parts, joints } = built(name);
    for (const joint of joints) {
      expect(joint.contactAreaMm2).toBeGreaterThan(1);
      const [a, b] = [joint.a, joint.b].map((id) => parts.find((p) => p.id === id));
      if (a === undefined || b === undefined) throw new Error(joint.id);
      for (const loop of joint.contact) {
        const normal = crossed(subtract(loop[1] as Vec3, loop[0] as Vec3), subtract(loop[2] as Vec3, loop[0] as Vec3));
        for (const p of loop) expect(Math.abs(dot(subtract(p, loop[0] as Vec3), normal)) / norm(normal)).toBeLessThan(0.01);
        for (const part of [a, b]) {
          const { minMm, maxMm } = boundsMm(part.solid, part.placement);
          for (const p of loop) {
            for (const i of [0, 1, 2] as const) {
              expect(p[i]).toBeGreaterThan(minMm[i] - 0.06);
              expect(p[i]).toBeLessThan(maxMm[i] + 0.06);
            }
          }
        }
      }
    }
  });

  test('fixings lie where the underside touches the base', () => {
    const { parts, fixing, top } = built(name);
    expect(fixing.pointsMm.length).toBeGreaterThan(0);
    const underside = top.heightMm - top.thicknessMm;
    const below = manifold.Manifold.union(bodies(parts.slice(1))).slice(underside - 0.01);
    const loops = below.toPolygons();
    for (const { xMm, yMm } of fixing.pointsMm) {
      const crossings = loops.filter((loop) => isInLoop(loop, [xMm, yMm], 0.05)).length;
      expect(crossings % 2).toBe(1);
    }
  });

  test('grain frames are right-handed unit vectors; sizes are the box along them', () => {
    for (const part of built(name).parts) {
      if (part.grain === undefined) continue;
      const { L, R, T } = part.grain;
      for (const v of [L, R, T]) expect(norm(v)).toBeCloseTo(1, 12);
      expect(dot(crossed(L, R), T)).toBeCloseTo(1, 12);
      const points = meshOf(part.solid, 0.002).positions.map((p): Vec3 => {
        const { originMm, axes } = part.placement;
        return [dot(axes[0], p) + originMm[0], dot(axes[1], p) + originMm[1], dot(axes[2], p) + originMm[2]];
      });
      const span = (axis: Vec3): number => Math.max(...points.map((p) => dot(p, axis))) - Math.min(...points.map((p) => dot(p, axis)));
      expect(Math.abs(span(L) - part.sizeMm.length)).toBeLessThan(0.01);
      const [r, t] = [span(R), span(T)];
      expect(Math.abs(Math.max(r, t) - part.sizeMm.width)).toBeLessThan(0.01);
      expect(Math.abs(Math.min(r, t) - part.sizeMm.thickness)).toBeLessThan(0.01);
    }
  });

  test('same input, same bytes', () => {
    expect(JSON.stringify(built(name))).toBe(JSON.stringify(built(name)));
  });
});

/** Volume and first moments of a body from its triangles. */
function momentsOf(body: Manifold): { readonly volume: number; readonly moment: Vec3 } {
  const mesh = body.getMesh();
  const point = (i: number): Vec3 => {
    const o = i * mesh.numProp;
    return [mesh.vertProperties[o] ?? 0, mesh.vertProperties[o + 1] ?? 0, mesh.vertProperties[o + 2] ?? 0];
  };
  let volume = 0;
  let moment: Vec3 = [0, 0, 0];
  for (let t = 0; t < mesh.triVerts.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => point(mesh.triVerts[t + k] ?? 0)) as [Vec3, Vec3, Vec3];
    const v = dot(a, crossed(b, c)) / 6;
    volume += v;
    moment = [
      moment[0] + (v * (a[0] + b[0] + c[0])) / 4,
      moment[1] + (v * (a[1] + b[1] + c[1])) / 4,
      moment[2] + (v * (a[2] + b[2] + c[2])) / 4,
    ];
  }
  return { volume, moment };
}
