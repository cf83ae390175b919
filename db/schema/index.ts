export * from './caches.ts';
export * from './ledger.ts';
