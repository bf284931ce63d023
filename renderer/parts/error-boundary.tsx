/** Catches a fault of our own in one screen, says so, and leaves the rest of the console standing. */
import { Component, type ReactNode } from 'react';
import { Act } from './act.tsx';
import { EmptyState } from './empty-state.tsx';

interface Props {
  /** What the fault is in, as the user knows it: "Desk". */
  readonly where: string;
  readonly children: ReactNode;
}

export class ErrorBoundary extends Component<Props, { readonly fault: Error | null }> {
  override state = { fault: null as Error | null };

  static getDerivedStateFromError(fault: unknown) {
    return { fault: fault instanceof Error ? fault : new Error(String(fault)) };
  }

  override render() {
    const { fault } = this.state;
    if (fault === null) return this.props.children;
    return (
      <EmptyState
        title={`${this.props.where} stopped working`}
        says={`This is a fault in the program, not something you did. Nothing that was acknowledged is lost: it is in the log. What the program says: ${fault.message}`}
      >
        <Act onPress={() => this.setState({ fault: null })}>Show it again</Act>
        <Act onPress={() => window.location.reload()}>Load the console again</Act>
      </EmptyState>
    );
  }
}
