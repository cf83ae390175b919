/** The ledger and what stands beside it: never caches, never rebuilt. */
import { sql } from 'drizzle-orm';
import { blob, index, integer, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core';

const from = (path: string) => sql.raw(`(text ->> '$.${path}')`);

/**
 * What people did, in order, only ever added to. `text` is the entry's RFC 8785 canonical form and `hash` its
 * SHA-256; every other column is generated from that text, so nothing can disagree with what was hashed.
 */
export const entries = sqliteTable(
  'entries',
  {
    key: integer('key').primaryKey(),
    text: text('text').notNull(),
    hash: text('hash').notNull(),
    device: text('device').generatedAlwaysAs(from('device'), { mode: 'virtual' }),
    seq: integer('seq').generatedAlwaysAs(from('seq'), { mode: 'virtual' }),
    clock: integer('clock').generatedAlwaysAs(from('clock'), { mode: 'virtual' }),
    recordedAt: integer('recorded_at').generatedAlwaysAs(from('recordedAt'), { mode: 'virtual' }),
    by: text('by').generatedAlwaysAs(from('by'), { mode: 'virtual' }),
    via: text('via').generatedAlwaysAs(from('via'), { mode: 'virtual' }),
    batch: text('batch').generatedAlwaysAs(from('batch'), { mode: 'virtual' }),
    action: text('action').generatedAlwaysAs(from('action'), { mode: 'virtual' }),
    v: integer('v').generatedAlwaysAs(from('v'), { mode: 'virtual' }),
    prev: text('prev').generatedAlwaysAs(from('prev'), { mode: 'virtual' }),
  },
  t => [uniqueIndex('entries_device_seq').on(t.device, t.seq)],
);

/** When this file learned of another device's entry: beside the entry, outside its hash. */
export const arrivals = sqliteTable('arrivals', {
  entry: text('entry').primaryKey(),
  learnedAt: integer('learned_at').notNull(),
});

/**
 * Photos that entries name, by the SHA-256 of their bytes: beside the ledger and only ever added to, like it. What
 * cannot be made again from the entries is no cache.
 */
export const attachments = sqliteTable('attachments', {
  sha256: text('sha256').primaryKey(),
  mime: text('mime').notNull(),
  size: integer('size_bytes').notNull(),
  bytes: blob('bytes', { mode: 'buffer' }).notNull(),
  learnedAt: integer('learned_at').notNull(),
});

/** The newest entry of each device: the anchor that shows a tail cut off. */
export const heads = sqliteTable('heads', {
  device: text('device').primaryKey(),
  seq: integer('seq').notNull(),
  clock: integer('clock').notNull(),
  recordedAt: integer('recorded_at').notNull(),
  hash: text('hash').notNull(),
});

/** About this file: its device, its home, the shape of its caches. */
export const meta = sqliteTable('meta', {
  name: text('name').primaryKey(),
  value: text('value').notNull(),
});

/** PIN verifiers (scrypt), outside the ledger and its exports. */
export const pinVerifiers = sqliteTable(
  'pin_verifiers',
  {
    key: integer('key').primaryKey(),
    member: text('member').notNull(),
    salt: text('salt').notNull(),
    verifier: text('verifier').notNull(),
    failures: integer('failures').notNull(),
    lockedUntil: integer('locked_until').notNull(),
  },
  t => [index('pin_verifiers_member').on(t.member)],
);
