// The page: one message after the other, built from what the bot has sent.
import '@skyra/discord-components-core';
import '@fontsource/noto-sans/400.css';
import '@fontsource/noto-sans/500.css';
import '@fontsource/noto-sans/600.css';
import '@fontsource/noto-sans/700.css';
import '@fontsource/noto-sans-mono/400.css';
import './page.css';
import inside from './inside.css';
import { markup, plain } from './markup.js';

const ephemeral = 1 << 6;
const styles = { 1: 'primary', 2: 'secondary', 3: 'success', 4: 'destructive' };

function element(tag, attributes = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) if (value !== false) e.setAttribute(name, value === true ? '' : value);
  e.append(...children);
  return e;
}

function marked(tag, attributes, text, context) {
  const e = element(tag, attributes);
  e.innerHTML = markup(text, context);
  return e;
}

/** face is a picture of a person: a letter on a disc. */
function face(name, colour) {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 40"><rect width="40" height="40" fill="${colour}"/><text x="20" y="27" font-family="sans-serif" font-size="20" fill="#fff" text-anchor="middle">${name[0]}</text></svg>`;
  return 'data:image/svg+xml,' + encodeURIComponent(svg);
}

const clock = ({ now, zone }) => now.toLocaleTimeString('en-GB', { timeZone: zone, timeStyle: 'short' });

function embeds(message, files, context) {
  return (message.Embeds ?? []).map((embed) => {
    const image = files.get((embed.image.url ?? '').replace('attachment://', ''));
    const e = element('discord-embed', { slot: 'embeds', 'embed-title': embed.title || false, image: image?.url ?? false });
    if (embed.description) e.append(marked('discord-embed-description', { slot: 'description' }, embed.description, context));
    if (embed.fields?.length || embed.footer?.text) throw new Error('fields and footers have no look yet');
    if (image) files.delete(image.name);
    return e;
  });
}

/** part draws a button, or a menu as it looks before anything is chosen. */
function part(c) {
  if (c.options?.length) return element('discord-string-select-menu', { placeholder: c.placeholder });
  return element('discord-button', { type: styles[c.style], disabled: c.disabled }, c.label);
}

function buttons(message) {
  if (!message.Components?.length) return [];
  const rows = message.Components.map((row) => element('discord-action-row', {}, ...row.components.map(part)));
  return [element('discord-attachments', { slot: 'components' }, ...rows)];
}

/** attachments are the files that no embed shows. */
function attachments(files) {
  if (files.size === 0) return [];
  return [element('discord-attachments', { slot: 'attachments' }, ...[...files.values()].map((f) => (f.type.startsWith('image/')
    ? element('discord-image-attachment', { url: f.url, alt: f.alt })
    : element('discord-file-attachment', { name: f.name, bytes: f.size, 'bytes-unit': 'B', type: f.type, href: '#' }))))];
}

function messageOf(message, first, screen, context) {
  const files = new Map((message.Files ?? []).map((f, i) => [f.Name, { name: f.Name, type: f.Type, alt: message.Attachments[i].Description,
    size: message.Attachments[i].Size, url: `data:${f.Type.split(';')[0]};base64,${f.Data}` }]));
  const m = element('discord-message', { author: 'musette', avatar: face('m', '#2f7d6d'), bot: true, timestamp: clock(context),
    ephemeral: (message.Flags & ephemeral) !== 0, 'message-body-only': !first });
  if (first && screen.Asked) {
    m.append(element('discord-command', { slot: 'reply', author: screen.Who, avatar: face(screen.Who, '#7a5c99'), command: screen.Command }));
  }
  m.append(marked('div', { class: 'content' }, message.Content, context), ...embeds(message, files, context), ...attachments(files), ...buttons(message));
  return m;
}

/** show draws a screen. It returns the screen's words, as a reader would copy them. */
window.show = async (screen, names, zone, theme) => {
  const context = { names, zone, now: new Date(screen.At) };
  document.body.className = theme;
  const list = element('discord-messages', { 'light-theme': theme === 'light' },
    ...screen.Messages.map((m, i) => messageOf(m, i === 0, screen, context)));
  document.body.replaceChildren(list);
  await document.fonts.ready;
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  for (const e of list.querySelectorAll('*')) {
    if (!e.shadowRoot) continue;
    const style = document.createElement('style');
    style.textContent = inside;
    e.shadowRoot.append(style);
  }
  await Promise.all([...list.querySelectorAll('discord-embed')].map((e) => e.shadowRoot.querySelector('img')?.decode()));
  return words(screen, context);
};

function words(screen, context) {
  const lines = screen.Asked ? [`${screen.Who}: ${screen.Asked}`, ''] : [];
  for (const m of screen.Messages) {
    lines.push(...[m.Content, ...(m.Embeds ?? []).map((e) => e.description)].filter(Boolean).map((text) => plain(markup(text, context))));
    lines.push(...(m.Attachments ?? []).map((a) => `(file ${a.Filename}${a.Description && ': ' + a.Description})`));
    lines.push(...(m.Components ?? []).map((row) => row.components.map((b) => `[${b.label || b.placeholder}]`).join(' ')));
    if (m.Flags & ephemeral) lines.push(`(only ${screen.Who} sees this)`);
  }
  return lines.join('\n') + '\n';
}
