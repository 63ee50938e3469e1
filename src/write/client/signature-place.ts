/** Who signs, why, and when: printed nowhere, shown by programs that read PDF signatures. */
export interface SignaturePlace {
  readonly name: string;
  readonly reason: string;
  /** RFC 3339 in UTC. */
  readonly at: string;
}

/** Room for a signature with a few certificates, in bytes. */
const roomBytes = 8192;
/** What the signer replaces by the byte range (ISO 32000-1, 12.8.1). */
const rangeSlot = '**********';
const signaturesExist = 1;
const appendOnly = 2;
const hidden = 2;
const locked = 128;

interface Inside {
  _acroform?: { readonly fonts: object; readonly defaultFont: string };
  readonly _root: { readonly data: Record<string, unknown> };
  readonly page: { readonly dictionary: { readonly data: Record<string, unknown> }; readonly annotations: unknown[] };
  ref(data: Record<string, unknown>): { end(): void };
}

/** A PDF text string, which the library tells from a name by its type. */
function words(text: string): object {
  return Object(text) as object;
}

/**
 * Adds an empty signature dictionary and a field that shows nothing on the page. The field is hidden, so that it need not stand in
 * the document's structure.
 * @source ISO 32000-1:2008, 12.7.4.5 (fields that are not to be seen), Table 252; EN 319 142-1, 6.3 (sub-filter; from memory)
 */
export function addSignaturePlace(document: PDFKit.PDFDocument, place: SignaturePlace): void {
  const doc = document as unknown as Inside;
  const signature = doc.ref({
    Type: 'Sig',
    Filter: 'Adobe.PPKLite',
    SubFilter: 'ETSI.CAdES.detached',
    ByteRange: [0, rangeSlot, rangeSlot, rangeSlot],
    Contents: Buffer.alloc(roomBytes),
    Reason: words(place.reason),
    M: new Date(place.at),
    Name: words(place.name),
  });
  const field = doc.ref({
    Type: 'Annot',
    Subtype: 'Widget',
    FT: 'Sig',
    Rect: [0, 0, 0, 0],
    F: hidden + locked,
    V: signature,
    T: words('Signature1'),
    P: doc.page.dictionary,
  });
  // The library ends a form of its own making, which has fonts; this one shows no text.
  doc._acroform = { fonts: {}, defaultFont: 'none' };
  doc._root.data['AcroForm'] = doc.ref({ SigFlags: signaturesExist + appendOnly, Fields: [field], DR: { Font: {} } });
  doc.page.annotations.push(field);
  doc.page.dictionary.data['Tabs'] = 'S';
  signature.end();
  field.end();
}
