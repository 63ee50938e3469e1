import { type EntryOf, type IssuedRevision, isBeyond, openSeal, type Standing } from '../../record/index.ts';
import type { WorkshopDelivery } from '../../site/workshop/index.ts';
import type { Library } from '../../spec/index.ts';
import { dayNumber, formatMass, parseDate } from '../../units/index.ts';
import { type SizesShown, shownSize, sizeName } from '../handing/hand-over-words.ts';
import { sealedWords } from '../hearing/note.ts';
import { newestEdition, papersLinks } from './papers-shown.ts';

type HandOver = EntryOf<'hand-over'>;
type Table = NonNullable<WorkshopDelivery['table']>;

/** What the pages and the list of all say of a delivery. */
export interface DeliverySource {
  readonly folder: string;
  readonly standing: Standing;
  /** Revisions as they are published. */
  readonly issued: readonly IssuedRevision[];
  readonly finishes: Library['finishes'];
  readonly shown: SizesShown;
  readonly today: string;
  /** The name of a person, by id. */
  readonly nameOf: (id: string) => string;
}

const plain = (word: string): string => word.replaceAll('-', ' ');

/** What each defect of a hand-over is, in order; that it was erased where it was. */
export function defectWords(folder: string, { sealed, acceptance }: HandOver): readonly string[] {
  const opened = sealed === undefined ? undefined : openSeal(folder, sealed);
  const listed = typeof opened === 'object' ? opened.data['defects'] : undefined;
  const instead = opened === 'gone' ? '(erased)' : '(no words)';
  return (acceptance?.defects ?? []).map((_, i) => {
    const says: unknown = Array.isArray(listed) ? listed[i] : undefined;
    return typeof says === 'string' ? says : instead;
  });
}

function rowsOf(handOver: HandOver, finishes: Library['finishes'], shown: SizesShown): Table['rows'] {
  const { finishedOn, finish, product, batch, baseFinish, massKg, moisturePercent, humidityPercent, acceptance } = handOver;
  const tin = (...words: readonly (string | undefined)[]): string => words.filter((one) => one !== undefined).join(', ');
  const finishRow = (name: string, id: string, ...words: readonly (string | undefined)[]): Table['rows'][number] => {
    const more = tin(...words);
    return { name, says: finishes[id]?.name ?? id, ...(more === '' ? {} : { more }) };
  };
  const batchOf = (said: string | undefined): string | undefined => (said === undefined ? undefined : `batch ${said}`);
  const air = [
    ['at glue-up', humidityPercent?.glueUp],
    ['at finishing', humidityPercent?.finish],
    ['at delivery', humidityPercent?.delivery],
  ].flatMap(([when, percent]) => (percent === undefined ? [] : [`${percent} % ${when}`]));
  return [
    finishRow('Finish', finish, product, batchOf(batch)),
    ...(baseFinish === undefined
      ? []
      : [finishRow('Finish of the base', baseFinish.finish, baseFinish.product, batchOf(baseFinish.batch))]),
    { name: 'Last coat', says: finishedOn },
    ...(moisturePercent === undefined ? [] : [{ name: 'Moisture at glue-up', says: moisturePercent.map((one) => `${one} %`).join(', ') }]),
    ...(air.length === 0 ? [] : [{ name: 'Humidity of the air', says: air.join(', ') }]),
    ...(massKg === undefined ? [] : [{ name: 'Weighed', says: formatMass(massKg, shown.show, shown.language, 1) }]),
    { name: 'Looked over', says: acceptance?.inspected === true ? 'at the delivery' : 'not at the delivery' },
  ];
}

function sizesOf({ asBuilt }: HandOver, shown: SizesShown): Table['sizes'] {
  return asBuilt.map((size) => {
    const n = (mm: number): string => shownSize(mm, shown);
    const name = sizeName(size.what);
    return {
      what: name.charAt(0).toUpperCase() + name.slice(1),
      agreed: n(size.agreed),
      built: n(size.built),
      tolerance: `\u00b1 ${n(size.tolerance)}`,
      ...(isBeyond(size) && size.yes !== undefined ? { yes: size.yes } : {}),
    };
  });
}

function tableOf(handOver: HandOver, { folder, standing, issued, finishes, shown, nameOf }: DeliverySource): Table {
  const { who, words } = sealedWords(folder, handOver);
  const { papers, care, openDefects, accepted } = standing;
  const edition = newestEdition(folder);
  const ordered = issued.find(({ revision }) => revision === standing.order?.confirmed.chosen.revision);
  const by = who ?? (handOver.person === undefined ? undefined : nameOf(handOver.person));
  return {
    piece: handOver.piece,
    entry: handOver.n,
    on: handOver.on,
    ...(by === undefined ? {} : { by }),
    ...(words === '' ? {} : { words }),
    rows: rowsOf(handOver, finishes, shown),
    ...(accepted === undefined ? {} : { signedOn: accepted.on }),
    sizes: sizesOf(handOver, shown),
    defects: defectWords(folder, handOver).map((says, i) => {
      const open = openDefects.find(({ defect }) => defect === i + 1);
      const state = open === undefined ? 'mended' : open.isLate ? 'late' : 'open';
      return { says, by: handOver.acceptance?.defects[i]?.by ?? '', state };
    }),
    photographs: handOver.photographs.map(({ path }) => path),
    ...(papers === undefined ? {} : { papers: { edition: papers.edition, on: papers.on, isOfNow: papers.of === care?.n } }),
    ways: edition === undefined ? [] : papersLinks(edition, ordered),
  };
}

/** Since when a table is stored after a delivery that failed, with the days so far. */
export function storedWords({ stored }: Pick<Standing, 'stored'>, today: string): string | undefined {
  if (stored === undefined) return undefined;
  const [from, now] = [parseDate(stored.from), parseDate(today)];
  const days = from === undefined || now === undefined ? undefined : dayNumber(now) - dayNumber(from) + 1;
  const until = stored.until === undefined ? '' : `, until ${stored.until}`;
  return `stored since ${stored.from}${until}${days === undefined || days < 1 ? '' : `: ${days === 1 ? '1 day' : `${days} days`}`}`;
}

/** The delivery of a proposal for its workshop page; nothing until the table was brought. */
export function deliveryShown(source: DeliverySource): WorkshopDelivery | undefined {
  const { folder, standing, today } = source;
  const { delivered, failedDeliveries } = standing;
  if (delivered === undefined && failedDeliveries.length === 0) return undefined;
  const stored = storedWords(standing, today);
  return {
    ...(delivered === undefined ? {} : { table: tableOf(delivered, source) }),
    failed: failedDeliveries.map((entry) => {
      const { words } = sealedWords(folder, entry);
      return { on: entry.on, reason: plain(entry.failed?.reason ?? 'other'), ...(words === '' ? {} : { words }) };
    }),
    ...(stored === undefined ? {} : { stored: `The table is ${stored}. What that costs is only what the agreed terms say.` }),
  };
}
