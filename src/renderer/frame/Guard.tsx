import { Component, type ComponentType, type ReactNode } from 'react';

/** What was thrown while a part of the page was drawn. */
export interface Stopped {
  readonly error: unknown;
  /** The parts it happened in, innermost first, as React names them; empty until React has told them. */
  readonly inside: string;
}

/** What is drawn in place of a part that stopped is given what happened, and the way to try the part again. */
export interface InsteadProps {
  readonly stopped: Stopped;
  readonly again: () => void;
}

interface GuardProps {
  /** A value that is another one where another thing is shown: then the guard lets go of what happened before. */
  readonly shown: unknown;
  readonly instead: ComponentType<InsteadProps>;
  readonly children: ReactNode;
}

interface GuardState {
  readonly shown: unknown;
  readonly stopped: Stopped | undefined;
}

/**
 * Keeps a defect where it happened: what it guards is taken off the page, everything around goes on. React knows no
 * other way to catch what drawing throws than a class.
 */
export class Guard extends Component<GuardProps, GuardState> {
  override state: GuardState = { shown: this.props.shown, stopped: undefined };

  static getDerivedStateFromError(error: unknown): Partial<GuardState> {
    return { stopped: { error, inside: '' } };
  }

  static getDerivedStateFromProps({ shown }: GuardProps, state: GuardState): GuardState | null {
    return shown === state.shown ? null : { shown, stopped: undefined };
  }

  override componentDidCatch(error: unknown, { componentStack }: { readonly componentStack?: string | null }): void {
    this.setState({ stopped: { error, inside: (componentStack ?? '').trim() } });
  }

  override render(): ReactNode {
    const { stopped } = this.state;
    if (stopped === undefined) return this.props.children;
    const Instead = this.props.instead;
    return <Instead stopped={stopped} again={() => this.setState({ stopped: undefined })} />;
  }
}
