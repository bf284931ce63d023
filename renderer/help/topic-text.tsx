/** A topic of the guide on the page: Markdown as elements, links between topics as addresses of the page. */
import Markdown from 'markdown-to-jsx';
import type { ReactNode } from 'react';
import { topicAddress } from './topics.ts';

function TopicLink({ href = '', children }: { readonly href?: string; readonly children?: ReactNode }) {
  const address = topicAddress(href);
  return address === null ? <span>{children}</span> : <a href={address}>{children}</a>;
}

/** Tables of the guide scroll by themselves where the page is narrow, and can be reached by the keyboard for it. */
function TopicTable({ children }: { readonly children?: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reachable by the keyboard
    <section className="help-table" tabIndex={0} aria-label="Table">
      <table className="table">{children}</table>
    </section>
  );
}

const OPTIONS = {
  disableParsingRawHTML: true,
  forceBlock: true,
  wrapper: 'div' as const,
  overrides: { a: TopicLink, table: TopicTable },
};

export const TopicText = ({ text }: { readonly text: string }) => (
  <Markdown className="help-text" options={OPTIONS}>
    {text}
  </Markdown>
);
