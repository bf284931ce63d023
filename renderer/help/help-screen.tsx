/** Help: the topics at one side, the text of one beside them, and a search through all. */
import { useState } from 'react';
import { TextBox } from '../parts/field.tsx';
import { screenRest } from '../shell/address.ts';
import { useHash } from '../shell/use-hash.ts';
import { KeyTopic } from './key-topic.tsx';
import { TopicText } from './topic-text.tsx';
import { findInHelp, TOPICS, type Topic } from './topics.ts';
import './help.css';

const TopicList = ({ current }: { readonly current: Topic }) => (
  <ul>
    {TOPICS.map(({ path, title }) => (
      <li key={path}>
        <a href={`#/help/${path}`} aria-current={path === current.path ? 'page' : undefined}>
          {title}
        </a>
      </li>
    ))}
  </ul>
);

function FoundList({ typed, onTaken }: { readonly typed: string; readonly onTaken: () => void }) {
  const found = findInHelp(typed);
  if (found.length === 0) return <p role="status">Nothing in the guide has these words in one line.</p>;
  return (
    <ul aria-label="Found">
      {found.map(({ topic, line }) => (
        <li key={topic.path}>
          <a href={`#/help/${topic.path}`} onClick={onTaken}>
            {topic.title}
            <span className="fine quiet">{line}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

export function HelpScreen() {
  const [path] = screenRest(useHash());
  const [typed, setTyped] = useState('');
  const topic = TOPICS.find((one) => one.path === path) ?? TOPICS[0];
  if (topic === undefined) return null;
  return (
    <div className="help">
      <nav className="help-topics" aria-label="Topics">
        <TextBox label="Search the guide" value={typed} onChange={setTyped} />
        {typed.trim() === '' ? (
          <TopicList current={topic} />
        ) : (
          <FoundList typed={typed} onTaken={() => setTyped('')} />
        )}
      </nav>
      <article className="help-topic" key={topic.path} aria-label={topic.title}>
        <h2>{topic.title}</h2>
        {topic.path === 'keys' ? <KeyTopic /> : <TopicText text={topic.text} />}
      </article>
    </div>
  );
}
