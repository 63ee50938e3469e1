import type { z } from 'zod';
import { choice, patterned, text, yesNo } from './field.ts';
import { group, list } from './shape.ts';

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
    site: patterned(
      'where client pages are uploaded',
      /^https:\/\/[a-z0-9.-]+(?::\d+)?(?:\/[A-Za-z0-9._~/-]*)?$/,
      'an address that begins with https://',
      {
        more: 'The messages that `issue` drafts name links below it.',
        examples: ['https://tables.example.invalid/p/'],
      },
    ).optional(),
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

/** templates/terms/<id>.yaml. */
export function termsSchema() {
  return group(
    'standing terms',
    {
      sections: list(
        'the sections',
        group('a section', { title: text('the title'), body: text('the text', { long: true, more: 'Markdown.' }) }),
      ),
      tolerances: list('the tolerances', group('a tolerance', { says: text('what it is of'), value: text('how much') })),
      changes: list('what a change costs, by stage', stageSays('a change')),
      cancellation: list('what cancelling costs, by stage', stageSays('a cancellation')),
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
