import { Component, type ReactNode } from 'react';
import { NO_REPLY } from '../domain/hearing/reply';
import type { Seat } from './seat';

/** Catches a screen that broke: the session's record is kept, and Stop stays in reach. */
export class ErrorBoundary extends Component<
  { seat: Seat; children: ReactNode },
  { broke: string | null }
> {
  override state: { broke: string | null } = { broke: null };

  static getDerivedStateFromError(error: unknown): { broke: string } {
    return { broke: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.broke === null) return this.props.children;
    return (
      <main className="page broke">
        <h1>This screen broke</h1>
        <p role="alert">
          Nothing that was said is lost: every answer is in the record. Reload to go on at the open
          question.
        </p>
        <div className="pair">
          <a className="button first" href="./">
            Reload
          </a>
          <button
            type="button"
            onClick={() => this.props.seat.reply({ ...NO_REPLY, command: 'stop' })}
          >
            Stop the session
          </button>
        </div>
        <details>
          <summary>For a report</summary>
          <p>{this.state.broke}</p>
        </details>
      </main>
    );
  }
}
