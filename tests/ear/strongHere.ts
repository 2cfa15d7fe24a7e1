import type { StrongWorkerHandle } from '../../src/ear/strong/strongRecogniser';
import type { FromStrongWorker, ToStrongWorker } from '../../src/ear/strong/messages';
import { strongWorker } from '../../src/ear/strong/strongWorker';

type Load = Parameters<typeof strongWorker>[0]['load'];

/** The worker of the strong ear in the test's own thread; messages are copied and come later, as between threads. */
export class StrongHere implements StrongWorkerHandle {
  onmessage: StrongWorkerHandle['onmessage'] = null;
  onerror: StrongWorkerHandle['onerror'] = null;
  terminated = false;
  readonly sent: ToStrongWorker['type'][] = [];
  private readonly take: (message: ToStrongWorker) => void;

  constructor(load: Load, now: () => number = () => 0) {
    const tell = (message: FromStrongWorker) => {
      const data = structuredClone(message);
      setImmediate(() => {
        if (!this.terminated) this.onmessage?.({ data } as MessageEvent<FromStrongWorker>);
      });
    };
    const breathe = () => new Promise<void>((resolve) => setImmediate(resolve));
    this.take = strongWorker({ tell, load, now, breathe });
  }

  postMessage(message: ToStrongWorker): void {
    this.sent.push(message.type);
    const data = structuredClone(message);
    setImmediate(() => {
      if (!this.terminated) this.take(data);
    });
  }
  terminate(): void {
    this.terminated = true;
  }
  crash(): void {
    this.onerror?.({ message: 'out of memory' } as ErrorEvent);
  }
}
