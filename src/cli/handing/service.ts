import { nearestName, type Problem } from '../../problem/index.ts';
import { type Body, type Json, type Service, type Standing, services } from '../../record/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { gatheredProblems } from '../draft/evaluate.ts';
import { atDesk, type Desk, dayOf, oneOf, type Prepared, recordEntry, saltOf } from '../record-desk.ts';
import { refusal, remark } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { refuseFileName } from '../words-or-file.ts';
import { broughtPhotograph, keptPhotograph } from './brought-photograph.ts';
import { editionLines } from './care.ts';
import { type EditionMade, makeTableEdition } from './make-edition.ts';

/** Numbers of defects, `1,3`. Throws a UsageFault. */
function defectsOf(said: string | undefined): readonly number[] {
  if (said === undefined) return [];
  const numbers = said.split(',').map((one) => Number(one.trim()));
  if (numbers.every((one) => Number.isSafeInteger(one) && one > 0)) return [...new Set(numbers)].toSorted((a, b) => a - b);
  throw new UsageFault(`--defects ${said} are no numbers of defects`, 'write them as the hand-over lists them: --defects 1,3');
}

/** The finish of a refinish, by its key in the library. Throws a UsageFault that names the nearest one. */
function finishOf({ input }: Desk, what: Service, said: string | undefined): string | undefined {
  if (what !== 'refinish') {
    if (said !== undefined) throw new UsageFault(`--finish goes with refinish, not with ${what}`, 'a repair leaves the finish what it is');
    return undefined;
  }
  const known = Object.keys(input.library.finishes).sort();
  if (said === undefined) throw new UsageFault('--finish is missing: what does the table bear now?', `there are ${known.join(', ')}`);
  if (known.includes(said)) return said;
  const near = nearestName(said, known);
  throw new UsageFault(`there is no finish ${said}${near === undefined ? '' : `; did you mean ${near}?`}`, `there are ${known.join(', ')}`);
}

/** What stands against a service, and what is worth knowing before it. */
function serviceProblems(desk: Desk, { delivered, openDefects }: Standing, on: string, defects: readonly number[]): readonly Problem[] {
  if (delivered === undefined)
    return [
      refusal('not-delivered', `${desk.slug} was not handed over, so there is no table to work at`, {
        mend: `leafwright hand-over ${desk.slug}`,
      }),
    ];
  const listed = delivered.acceptance?.defects.length ?? 0;
  const open = openDefects.map(({ defect }) => defect);
  const unlisted = defects.find((one) => one > listed);
  const done = defects.filter((one) => one <= listed && !open.includes(one));
  return [
    ...(on < delivered.on
      ? [
          refusal('service-before', `a service on ${on} would come before the hand-over`, {
            allowed: `${delivered.on} or later`,
            mend: 'what was done before belongs to the making',
          }),
        ]
      : []),
    ...(unlisted === undefined
      ? []
      : [
          refusal('service-no-defect', `the hand-over lists no defect ${unlisted}`, {
            allowed: listed === 0 ? 'none was listed' : `1 to ${listed}`,
            mend: 'say in words what was mended, and leave --defects out',
          }),
        ]),
    ...(done.length === 0
      ? []
      : [remark('service-done', `${done.length === 1 ? `defect ${done[0]} was` : `defects ${done.join(' and ')} were`} put right before`)]),
  ];
}

/** `service`: a visit, a repair or a refinish of a table that was handed over; a refinish makes its care another from that day. */
export async function runService(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values } = given;
  refuseFileName(words[2], `leafwright service ${words[0]} ${words[1]}`);
  return atDesk(given, terminal, async (desk) => {
    const what = oneOf(services, words[1], 'the service');
    const on = dayOf(desk, values['on']);
    const finish = finishOf(desk, what, values['finish']);
    const batch = values['batch']?.trim();
    if (batch !== undefined && what !== 'refinish') throw new UsageFault('--batch goes with refinish', 'leave it out');
    const defects = defectsOf(values['defects']);
    const photograph = broughtPhotograph(values['photograph']);
    const said = words[2]?.normalize('NFC').trim() ?? '';
    const papers: { made?: EditionMade } = {};
    return recordEntry(
      desk,
      ({ entries, standing }): Prepared => {
        const found = serviceProblems(desk, standing, on, defects);
        if (found.some(({ severity }) => severity === 'error')) return { problems: found };
        const { named, files } = keptPhotograph(entries, 'service', photograph);
        const body: Body<'service'> = {
          kind: 'service',
          on,
          what,
          ...(finish === undefined ? {} : { finish }),
          ...(batch === undefined || batch === '' ? {} : { batch: batch.slice(0, 120) }),
          ...(defects.length === 0 || standing.delivered === undefined ? {} : { of: standing.delivered.n, defects }),
          ...named,
        };
        return {
          body,
          ...files,
          ...(said === '' ? {} : { sealed: { data: { words: said } as Record<string, Json>, random: saltOf() } }),
          warnings: [...found, ...(photograph?.problems ?? [])],
        };
      },
      (entry, before, after) => [
        `entry ${entry.n}: ${what} at ${before.delivered?.piece ?? desk.slug}, on ${on}${finish === undefined ? '' : `: ${desk.input.library.finishes[finish]?.name ?? finish}`}`,
        ...(defects.length === 0 ? [] : [`  defects       ${defects.join(', ')} put right; ${after.openDefects.length} open`]),
        ...(papers.made === undefined ? [] : editionLines(desk, papers.made)),
      ],
      async () => {
        // A visit or a repair leaves the care as it is.
        if (what !== 'refinish') return { problems: [] };
        desk.terminal.progress('making the papers of the table anew');
        papers.made = await makeTableEdition(desk);
        const { edition, problems } = papers.made;
        return {
          problems: gatheredProblems(problems),
          data: edition === undefined ? {} : { edition: edition.entry, careToken: edition.token },
        };
      },
    );
  });
}
