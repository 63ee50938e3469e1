import { z } from 'zod';
import { choice, decimal, number, patterned, percent, text, yesNo } from './field.ts';
import { SITE } from './page.ts';
import { group, kinds, list } from './shape.ts';
import { STAGES } from './stage.ts';
import { toleranceOf } from './tolerance.ts';

/** One secure address; what could end a rule of a page's content policy can not stand in it. */
const FORM = /^https:\/\/[a-z0-9-]+(?:\.[a-z0-9-]+)*(?::\d{1,5})?(?:\/[A-Za-z0-9._~%!$&()*+=:@/-]*)?(?:\?[A-Za-z0-9._~%!$&()*+=:@/?-]*)?$/;

/** templates/maker.yaml. */
export function makerSchema() {
  return group('the maker', {
    name: text('the name'),
    trade: text('the trade'),
    address: text('the address'),
    email: patterned('the e-mail address', /^[^\s@<>]+@[^\s@<>]+\.[^\s@<>]+$/, 'an e-mail address'),
    telephone: text('the telephone number'),
    site: patterned('where client pages are uploaded', SITE, 'an address that begins with https://', {
      more: 'The messages that `issue` drafts name links below it.',
      examples: ['https://tables.example.invalid/p/'],
    }).optional(),
    form: patterned('the address of a form that takes answers', FORM, 'an address that begins with https://', {
      more: 'The client page then offers to send the letter there; it has the fields proposal, revision, person, name and letter.',
      examples: ['https://forms.example.invalid/answers'],
    }).optional(),
    timeZone: patterned('the time zone', /^(?:UTC|[A-Z][A-Za-z_]+(?:\/[A-Za-z0-9_+-]+){1,2})$/, 'an IANA time zone such as Europe/Dublin'),
    payment: list('how a client pays', text('a line of bank details'), {
      most: 12,
      more: 'Printed on payment requests, line by line.',
      example: 'payment:\n  - IBAN XX00 0000 0000 0000',
    }).optional(),
    invented: yesNo('whether the maker is invented').prefault('false'),
  });
}

const stageSays = (noun: string) => group(noun, { stage: text('the stage'), says: text('what holds from then on') });

const from = () => choice('the stage from which it holds', STAGES, { examples: ['cut'] });

function cancellationRule() {
  return kinds(
    'how what is due is reckoned',
    [
      group('the hours of drawing', {
        kind: z.literal('design-hours'),
        from: from(),
        atMost: percent('the most, as a share of the price', { from: 0, to: 100 }),
      }),
      group('the work done and the timber', { kind: z.literal('work-and-timber'), from: from() }),
      group('the price', { kind: z.literal('price'), from: from() }),
    ],
    {
      more: 'Keep it in step with the words beside it: `leafwright cancel` reckons by it.',
      example: 'rule: { kind: design-hours, from: enquiry, atMost: 10 % }',
    },
  );
}

/** templates/terms/<id>.yaml. */
export function termsSchema() {
  return group(
    'standing terms',
    {
      sections: list(
        'the sections',
        group('a section', { title: text('the title'), body: text('the text', { long: true, more: 'Markdown.' }) }),
      ),
      tolerances: list(
        'the tolerances',
        group('a tolerance', { says: text('what it is of'), value: text('how much'), of: toleranceOf().optional() }),
      ),
      changes: list('what a change costs, by stage', stageSays('a change')),
      cancellation: list(
        'what cancelling costs, by stage',
        group('a cancellation', {
          stage: text('the stage'),
          says: text('what holds from then on'),
          rule: cancellationRule().optional(),
        }),
      ),
      warranty: group('where the terms say what the maker stands for', {
        section: text('the title of the section', { more: 'One of the sections above: a claim is told by its words.' }),
        months: number('the months from the delivery for which the maker stands for it', { from: 1, to: 1200, whole: true }).optional(),
      }).optional(),
      storage: group('what keeping a finished table costs', {
        says: text('what the client is told of it', { more: 'A section of the terms.' }),
        freeDays: number('the days free of charge', { from: 0, to: 400, whole: true }),
        perWeek: decimal('the fee for each week begun after that', { more: 'Nothing is reckoned where silent.' }).optional(),
      }).optional(),
      consent: choice('whose law of consent and distance selling is told', ['eu', 'us', 'none-stated'], {
        more: '`eu`: consumers in the European Union; `us`: in the United States; `none-stated`: no law is named, as between businesses.',
      }).optional(),
    },
    { more: 'A starting point and no legal advice: have them read by somebody licensed where you work.' },
  );
}

/** Who makes the tables. */
export type MakerSpec = z.infer<ReturnType<typeof makerSchema>>;
/** Standing terms, by id: Markdown sections in order. */
export type TermsSpec = z.infer<ReturnType<typeof termsSchema>>;
/** How what is due on cancelling is reckoned, from a stage on. */
export type CancellationRule = NonNullable<TermsSpec['cancellation'][number]['rule']>;
