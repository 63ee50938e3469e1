import { formatProblems, hasErrors } from '../../problem/index.ts';
import { readCareLink } from '../../record/index.ts';
import type { ExitCode, Given } from '../command.ts';
import { gatheredProblems } from '../draft/evaluate.ts';
import { nextStep } from '../next-step.ts';
import { atDesk, type Desk, lookNow } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { careAddress } from './care-files.ts';
import { type EditionMade, makeTableEdition } from './make-edition.ts';

const schema = 'leafwright/care-edition/1';

/** What became of an edition, for a report: where its papers lie and under which link whoever has the table finds its care. */
export function editionLines({ input, shown, terminal }: Desk, { edition, standing }: EditionMade): readonly string[] {
  if (edition === undefined)
    return standing === undefined ? [] : [`  papers        edition ${standing.edition} of ${standing.on} says the same, so none was made`];
  const folder = `${shown}/handed-over/${edition.entry.edition}`;
  const address = careAddress(input.library.maker.site, edition.token) ?? `${edition.token}/`;
  return [
    `  papers        ${terminal.accent(folder)}, edition ${edition.entry.edition}, ${edition.made} files`,
    `  care link     ${terminal.accent(address)}  (names no client; for the label, and for whoever has the table)`,
    ...(input.library.maker.site === undefined
      ? ['  label         none: write site: into templates/maker.yaml, then leafwright care again']
      : [`  label         ${folder}/label/`]),
  ];
}

/** What a new link of the care asks of the maker. */
const renewedLines = (before: string): readonly string[] => [
  `  old link      ${before}/ leads nowhere once build was uploaded, and neither does the code on the label under the top`,
  '  to do         print the label anew, stick it over the old one, and tell whoever keeps the old link',
];

/** `care`: makes the papers of the table anew, where its care has changed or a run ended before they were made. */
export async function runCare(given: Given, terminal: Terminal): Promise<ExitCode> {
  return atDesk(given, terminal, async (desk) => {
    const refuse = (made: EditionMade): 1 => {
      if (desk.json) terminal.say(JSON.stringify({ schema, proposal: desk.slug, problems: made.problems }, undefined, 2));
      else
        terminal.warn(formatProblems(gatheredProblems(made.problems), { colour: terminal.colour.err }, 'No papers were made.').trimEnd());
      return 1;
    };
    const { delivered } = lookNow(desk).standing;
    if (delivered === undefined)
      return refuse({
        problems: [
          refusal('not-delivered', `${desk.slug} was not handed over, so there is no table to look after`, {
            mend: `leafwright hand-over ${desk.slug}; until then the client's page has the care of its finish`,
          }),
        ],
      });
    terminal.progress(`making the papers of ${delivered.piece}`);
    const before = readCareLink(desk.folder)?.token;
    const renewLink = given.switches.has('renew-link');
    const made = await makeTableEdition(desk, { again: given.switches.has('again'), renewLink });
    if (made.edition === undefined && made.standing === undefined) return refuse(made);
    const { standing } = lookNow(desk);
    if (desk.json) {
      const { edition, problems } = made;
      terminal.say(
        JSON.stringify(
          {
            schema,
            proposal: desk.slug,
            piece: delivered.piece,
            made: edition !== undefined,
            entry: standing.papers,
            token: edition?.token,
            ...(renewLink && before !== undefined ? { oldToken: before } : {}),
            problems,
          },
          undefined,
          2,
        ),
      );
      return 0;
    }
    if (made.problems.length > 0 && !hasErrors(made.problems))
      terminal.warn(formatProblems(gatheredProblems(made.problems), { colour: terminal.colour.err }).trimEnd());
    terminal.say(`The papers of ${delivered.piece}:`);
    for (const line of editionLines(desk, made)) terminal.say(line);
    if (renewLink && made.edition !== undefined && before !== undefined) for (const line of renewedLines(before)) terminal.say(line);
    const next = nextStep(standing, desk.today);
    terminal.say(`\nNext: leafwright build, then upload dist/client${next === '' ? '' : `; then ${next}`}`);
    return 0;
  });
}
