/** Client documents as PDF bytes, from a `ClientView` alone: nothing here can reach a cost. */

export type { ApprovedScope } from './approved-scope.ts';
export { type CalendarContent, type CalendarEvent, calendarFile } from './calendar.ts';
export { writeCare } from './care.ts';
export { writeClaim } from './claim.ts';
export { type DeliveryNote, writeDeliveryNote } from './delivery-note.ts';
export { type LabelContent, type LabelFault, type LabelLayout, type LabelSize, layOutLabel } from './label.ts';
export { labelPdf, labelSvg, type OutlineFont, type OutlineFonts } from './label-write.ts';
export { type Mail, type MailAttachment, type MailPerson, mailDraft } from './mail.ts';
export { type DocumentFonts, measureWith } from './paint.ts';
export { type PaymentRequest, writePaymentRequest } from './payment-request.ts';
export { writeScope } from './scope.ts';
export { type Statement, writeStatement } from './statement.ts';
export { writeDrawingsAsBuilt, writeMaterials } from './table-papers.ts';
