/** Reading the body of a request to the two doors. */
import type { IncomingMessage } from 'node:http';

/**
 * Sheets and photos travel in the body, as base64. A sheet of 100,000 rows is some 10 MB; the photos of one act are
 * 54 MB at most (`domain/photos`).
 */
export const BODY_LIMIT_BYTES = 64 * 1024 * 1024;

export class BodyRefused extends Error {
  readonly status: number;
  constructor(status: number, message: string) {
    super(message);
    this.status = status;
  }
}

/**
 * The JSON object in a request's body.
 * @throws BodyRefused 415 where it is not declared as JSON (a form of another page cannot declare that without
 *   being asked first), 413 where it is longer than `limit`, 400 where it is not one JSON object
 */
export async function readObject(
  request: IncomingMessage,
  limit = BODY_LIMIT_BYTES,
): Promise<Record<string, unknown>> {
  const type = (request.headers['content-type'] ?? '').split(';')[0]?.trim().toLowerCase();
  if (type !== 'application/json') throw new BodyRefused(415, 'The body must be application/json.');
  const tooLong = new BodyRefused(413, `The body is longer than ${limit} bytes.`);
  if (Number(request.headers['content-length'] ?? 0) > limit) throw tooLong;
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    length += part.length;
    if (length > limit) throw tooLong;
    parts.push(part);
  }
  const value = parse(Buffer.concat(parts).toString('utf8'));
  if (value === null || typeof value !== 'object' || Array.isArray(value))
    throw new BodyRefused(400, 'The body must be a JSON object.');
  return value as Record<string, unknown>;
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new BodyRefused(400, 'The body is not JSON.');
  }
}
