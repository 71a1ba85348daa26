// Discord's markup as HTML. The parser is other people's work, so that it also
// checks what the bot escapes; only lists are missing there.
import { rulesExtended, SimpleMarkdown } from 'discord-markdown-parser';

const listItem = {
  order: rulesExtended.subtext.order,
  match: (source, state) => (state.prevCapture === null || state.prevCapture.slice(-1)[0] === '\n' ? /^- ([^\n]*)(\n|$)/.exec(source) : null),
  parse: (capture, parse, state) => ({ content: parse(capture[1], state) }),
};
/** wholeLine lets the next rule know that a line has ended. */
const wholeLine = (rule) => ({ ...rule, parse: (capture, parse, state) => {
  const node = rule.parse(capture, parse, state);
  state.prevCapture = capture;
  return node;
} });
const parser = SimpleMarkdown.parserFor({ ...rulesExtended, listItem: wholeLine(listItem), subtext: wholeLine(rulesExtended.subtext) });

const escape = (text) => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
const mention = (text) => `<span class="mention">${escape(text)}</span>`;

/** markup turns a text into HTML. names are those of ids, now is the reader's clock. */
export function markup(text, { names, now, zone }) {
  const all = (nodes) => nodes.map(one).join('');
  const named = (mark) => (node) => mention(mark + (names[node.id] ?? 'unknown'));
  const kinds = {
    text: (n) => escape(n.content),
    br: () => '<br>',
    strong: (n) => `<b>${all(n.content)}</b>`,
    em: (n) => `<i>${all(n.content)}</i>`,
    underline: (n) => `<u>${all(n.content)}</u>`,
    strikethrough: (n) => `<s>${all(n.content)}</s>`,
    inlineCode: (n) => `<code>${escape(n.content)}</code>`,
    listItem: (n) => `<div class="item"><span class="dot">• </span>${all(n.content)}</div>`,
    subtext: (n) => `<div class="small">${all(n.content)}</div>`,
    blockQuote: (n) => `<div class="quote">${all(n.content).replace(/<br>$/, '')}</div>`,
    user: named('@'),
    role: named('@'),
    channel: named('#'),
    slashCommand: (n) => mention('/' + n.fullName),
    timestamp: (n) => `<span class="time">${escape(instant(n, now, zone))}</span>`,
  };
  function one(node) {
    const kind = kinds[node.type];
    if (!kind) throw new Error(`no look for markup of type ${node.type}: ${JSON.stringify(node)}`);
    return kind(node);
  }
  return all(parser(text, { inline: true }));
}

/** plain is the text of such HTML, with its line ends. */
export function plain(html) {
  let out = '';
  const line = () => { if (out && !out.endsWith('\n')) out += '\n'; };
  for (const piece of html.split(/(<[^>]+>)/)) {
    if (piece === '<br>') out += '\n';
    else if (/^<\/?div/.test(piece)) line();
    else if (!piece.startsWith('<')) out += piece.replace(/&#(\d+);/g, (_, n) => String.fromCharCode(n));
  }
  return out.trimEnd();
}

/** instant is <t:...> in British English. */
function instant({ timestamp, format }, now, zone) {
  const at = new Date(Number(timestamp) * 1000);
  if (format !== 'R') {
    const day = at.toLocaleDateString('en-GB', { timeZone: zone, weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' });
    return `${day} at ${at.toLocaleTimeString('en-GB', { timeZone: zone, timeStyle: 'short' })}`;
  }
  const seconds = (at - now) / 1000;
  const [unit, length] = Object.entries({ day: 86400, hour: 3600, minute: 60 }).find(([, l]) => Math.abs(seconds) >= l) ?? ['second', 1];
  return new Intl.RelativeTimeFormat('en-GB').format(Math.round(seconds / length), unit);
}
