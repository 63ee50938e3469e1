import type { CodeEntry } from './entry.ts';

/** Codes of the maker's own key. */
export const signCodes: Readonly<Record<`sign/${string}`, CodeEntry>> = {
  'sign/key-exists': {
    title: 'there is a key already',
    explain: 'Scopes were perhaps signed with it. A key is never written over; keep the old file before you make another.',
  },
  'sign/key-in-work-tree': {
    title: 'the key would lie among files that are shared',
    explain: 'Whoever has the key can sign in your name. It belongs outside every workspace and every git work tree.',
  },
  'sign/no-key': {
    title: 'no key is set up',
    explain: 'Without one, scopes are made and recorded by their digest, and not signed.',
  },
  'sign/no-name': {
    title: 'the key would be made in the name of the invented maker',
    explain: 'The certificate bears the name of who signs.',
  },
  'sign/not-a-key': {
    title: 'the key file can not be read as a key',
    explain: 'It has to be a PKCS #12 file with an RSA key and the certificate that belongs to it.',
  },
  'sign/wrong-passphrase': {
    title: 'the passphrase does not open the key',
    explain: 'It is read from LEAFWRIGHT_KEY_PASSPHRASE. Nobody can open the file without it, nor look it up.',
  },
  'sign/key-not-valid': {
    title: 'the certificate of the key does not hold on the day of the signature',
    explain: 'A certificate has a first and a last day. A signature from outside them would be doubted.',
  },
};
