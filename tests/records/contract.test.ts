import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { createDexieRecords } from '../../src/records/dexieRecords';
import { keepTrying } from '../../src/records/keepTrying';
import { lazyRecords } from '../../src/records/lazyRecords';
import { memoryRecords } from '../../src/records/memoryRecords';
import { recordsContract } from './contract';
import { handClock } from './handClock';

const dexie = () => createDexieRecords('test', { indexedDB: new IDBFactory(), IDBKeyRange });

recordsContract('memory', memoryRecords);
recordsContract("the browser's database", dexie);
recordsContract('loaded when asked for', () => lazyRecords(() => Promise.resolve(dexie())));
recordsContract('trying again over memory', () => keepTrying(memoryRecords(), handClock()));
recordsContract('trying again over the database', () => keepTrying(dexie(), handClock()));
