/**
 * The seal of a students' exercise file. What is hidden is encrypted with AES-256-GCM, so that no glance at the file tells it, and any
 * change of the open part makes the seal refuse. It is a seal and no safe: the program must open it to run the vehicle, so the key
 * comes from the file itself, and whoever reads the program can open it too. That the file is the instructor's own, unchanged, is
 * proved by an HMAC-SHA-256 under the instructor's key phrase, which is not in the file.
 */
import {
  createCipheriv,
  createDecipheriv,
  createHash,
  createHmac,
  randomBytes,
  scryptSync,
  timingSafeEqual,
} from 'node:crypto';

/** All in base64. */
export interface Seal {
  readonly salt: string;
  readonly nonce: string;
  readonly tag: string;
  readonly text: string;
  readonly proof: string;
}

/** Scrypt's cost: a tenth of a second, so that guessing key phrases is slow. */
const COST = { N: 16384, r: 8, p: 1 };

/**
 * @param open the open part of the file, as canonical text
 * @param secret what is hidden
 */
export function seal(open: string, secret: string, phrase: string, random = randomBytes): Seal {
  const salt = random(16);
  const nonce = random(12);
  const cipher = createCipheriv('aes-256-gcm', fileKey(salt), nonce);
  cipher.setAAD(Buffer.from(open));
  const text = Buffer.concat([cipher.update(secret, 'utf8'), cipher.final()]).toString('base64');
  const tag = cipher.getAuthTag().toString('base64');
  const unproved = { salt: salt.toString('base64'), nonce: nonce.toString('base64'), tag, text };
  return { ...unproved, proof: proofOf(open, unproved, phrase).toString('base64') };
}

/** What is hidden; undefined when the file is not as it was sealed. */
export function unseal(open: string, { salt, nonce, tag, text }: Seal): string | undefined {
  try {
    const decipher = createDecipheriv('aes-256-gcm', fileKey(from(salt)), from(nonce), { authTagLength: 16 });
    decipher.setAAD(Buffer.from(open));
    decipher.setAuthTag(from(tag));
    return Buffer.concat([decipher.update(from(text)), decipher.final()]).toString('utf8');
  } catch {
    return undefined;
  }
}

/** Was the file sealed with this key phrase, and is it unchanged? */
export function isProved(open: string, sealed: Seal, phrase: string): boolean {
  const [made, given] = [proofOf(open, sealed, phrase), from(sealed.proof)];
  return made.length === given.length && timingSafeEqual(made, given);
}

function proofOf(open: string, { salt, nonce, tag, text }: Omit<Seal, 'proof'>, phrase: string): Buffer {
  const key = scryptSync(phrase.normalize('NFC'), from(salt), 32, COST);
  return createHmac('sha256', key)
    .update(JSON.stringify([open, salt, nonce, tag, text]))
    .digest();
}

function fileKey(salt: Buffer): Buffer {
  return createHash('sha256').update('knowngood exercise seal 1\n').update(salt).digest();
}

function from(text: string): Buffer {
  return Buffer.from(text, 'base64');
}
