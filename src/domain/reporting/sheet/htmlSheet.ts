import { FINDING_COLUMNS, findingCells, headOf } from './cells';
import type { ReadinessSheet } from './readinessSheet';

/** The sheet as one HTML file: no script, nothing fetched, light on screen and on paper. */
export function htmlSheet(sheet: ReadinessSheet): string {
  const { title } = sheet;
  const t = (name: string) => escaped(title(name));
  const list = (items: readonly string[]) =>
    `<ul>${items.map((item) => `<li>${escaped(item)}</li>`).join('')}</ul>`;
  const part = (name: string, body: string) =>
    body === '' ? '' : `<section><h2>${t(name)}</h2>\n${body}</section>\n`;
  const areas = sheet.areas.map(
    ({ area, outcome, sentence, reasons }) =>
      `<h3>${escaped(area.words)}: ${escaped(outcome.words)}</h3><p>${escaped(sentence)}</p>${
        reasons.length > 0 ? list(reasons) : ''
      }`,
  );
  const rows = sheet.findings.map((finding) => {
    const cells = findingCells(sheet, finding);
    const [first, ...rest] = FINDING_COLUMNS;
    const others = rest.map((column) => `<td>${escaped(cells[column])}</td>`).join('');
    return `<tr><th scope="row">${escaped(cells[first])}</th>${others}</tr>`;
  });
  const table = `<table><thead><tr>${FINDING_COLUMNS.map(
    (column) => `<th scope="col">${t(column)}</th>`,
  ).join('')}</tr></thead>\n<tbody>${rows.join('\n')}</tbody></table>`;
  const ready = sheet.liftsReady.map(({ words }) => words).join(', ') || title('none');
  const homework = sheet.homework.map(
    ({ area, name, dose, details }) =>
      `<h3>${escaped(area.words)}: ${escaped(name)}</h3><p><strong>${escaped(dose)}</strong></p>${list(details)}`,
  );
  const tasks = [...homework, sheet.noHomework.length > 0 ? list(sheet.noHomework) : ''].join('');
  const head = headOf(sheet).map(
    ([name, words]) => `<dt>${escaped(name)}</dt><dd>${escaped(words)}</dd>`,
  );
  return `<!doctype html>
<html lang="${escaped(sheet.language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${t('title')}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${t('title')}</h1>
<p class="notice">${escaped(sheet.notices[0] ?? '')}</p>
<dl>${head.join('')}</dl>
${[
  part('flags', sheet.redFlags.length > 0 ? list(sheet.redFlags.map(({ words }) => words)) : ''),
  part('areas', areas.join('\n')),
  part('findings', rows.length > 0 ? `<div class="wide" tabindex="0">${table}</div>` : ''),
  part(
    'measured',
    sheet.measured.map(({ check, told }) => `<h3>${escaped(check)}</h3>${list(told)}`).join('\n'),
  ),
  part(
    'lifts',
    `<p><strong>${t('lifts-ready')}:</strong> ${escaped(ready)}</p>${
      sheet.liftsMissing.length > 0
        ? `<h3>${t('lifts-missing')}</h3>${list(sheet.liftsMissing)}`
        : ''
    }`,
  ),
  part('homework', tasks === '' ? `<p>${t('no-homework')}</p>` : tasks),
  part(
    'next',
    `<p><strong>${escaped(sheet.next.date ?? title('no-date'))}</strong>. ${escaped(sheet.next.because)}</p>`,
  ),
  part('notes', sheet.notes.length > 0 ? list(sheet.notes) : ''),
  part('cautions', list([...sheet.cautions, ...sheet.notices])),
  part('sources', sheet.sources.length > 0 ? list(sheet.sources) : ''),
].join('')}</main>
</body>
</html>
`;
}

const SIGNS: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
const escaped = (text: string): string => text.replace(/[&<>"']/g, (sign) => SIGNS[sign] ?? '');

const STYLE = `
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #1a1a1a; font: 16px/1.45 system-ui, sans-serif; }
main { max-width: 50rem; margin: 0 auto; padding: 1.5rem 1rem; }
h1 { font-size: 1.6rem; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 1.5rem 0 .5rem; border-bottom: 2px solid #1a1a1a; }
h3 { font-size: 1rem; margin: .75rem 0 .25rem; }
p, ul { margin: .25rem 0; }
.notice { font-weight: 600; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .125rem 1rem; margin: 1rem 0 0; }
dt { font-weight: 600; }
dd { margin: 0; overflow-wrap: anywhere; }
li, p, td, th { overflow-wrap: break-word; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .9rem; }
th, td { border: 1px solid #767676; padding: .25rem .4rem; text-align: left; vertical-align: top; }
@page { margin: 15mm; }
@media print {
  main { max-width: none; padding: 0; }
  body { font-size: 10.5pt; }
  .wide { overflow: visible; }
  h2, h3 { break-after: avoid; }
  tr, li { break-inside: avoid; }
  thead { display: table-header-group; }
}
`;
