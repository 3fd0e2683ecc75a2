import { describe, expect, it } from 'vitest';
import { foreignAddresses } from './foreign-addresses';

const OWN = 'https://farm.example/tools/gillbed/';
const policy = (more = ''): string =>
  `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'${more}">`;
const sound: Readonly<Record<string, string>> = {
  'index.html': `${policy()}<script src="workbench.js"></script><a href="https://elsewhere.example/">read on</a>`,
  'pane.html': `${policy(' https://appsforoffice.microsoft.com')}<script src="https://appsforoffice.microsoft.com/lib/1/hosted/office.js"></script>`,
  'workbench.js':
    'document.createElementNS("http://www.w3.org/2000/svg", "svg"); fetch("functions.json") // now',
  'workbench.css': '@import "more.css"; a { background: url(icons/a.png) }',
  'functions.json': `{"helpUrl":"${OWN}reference/feed-day.html"}`,
};
const found = (file: string, text: string): string[] =>
  foreignAddresses(new Map(Object.entries({ ...sound, [file]: text })), OWN);

describe('a built folder requests nothing from other hosts', () => {
  it('finds nothing in a sound folder', () => {
    expect(foreignAddresses(new Map(Object.entries(sound)), OWN)).toEqual([]);
  });

  // Each plants one fault.
  it.each([
    ['a script', 'index.html', `${policy()}<script src="https://elsewhere.example/a.js"></script>`],
    [
      'a script without quotes',
      'index.html',
      `${policy()}<script defer src=//elsewhere.example/a.js>`,
    ],
    [
      'a link',
      'index.html',
      `${policy()}<link rel="stylesheet" href="https://elsewhere.example/a.css">`,
    ],
    ['a picture', 'index.html', `${policy()}<img alt="" src='http://elsewhere.example/a.png'>`],
    ['a form', 'index.html', `${policy()}<form action="https://elsewhere.example/">`],
    [
      'a style in a page',
      'index.html',
      `${policy()}<p style="background:url(//elsewhere.example/a.png)">`,
    ],
    ['a picture in a drawing', 'a.svg', '<image xlink:href="https://elsewhere.example/a.png"/>'],
    ['a page whose policy lets it through', 'index.html', policy(' https://elsewhere.example')],
    [
      'a url in a style',
      'workbench.css',
      'a { background: url("https://elsewhere.example/a.png") }',
    ],
    ['an import in a style', 'workbench.css', '@import "https://elsewhere.example/a.css";'],
    ['fetch', 'workbench.js', 'fetch("https://elsewhere.example/a")'],
    ['fetch without a scheme', 'workbench.js', 'fetch("//elsewhere.example/a")'],
    ['a later import', 'workbench.js', 'import(`https://elsewhere.example/${name}`)'],
    ['a socket', 'workbench.js', 'new WebSocket("wss://elsewhere.example:8080")'],
    ['the data of the functions', 'functions.json', '{"helpUrl":"https://elsewhere.example/"}'],
  ])('finds %s', (_, file, text) => {
    const [first = '', ...more] = found(file, text);
    expect(first).toContain(`${file}: `);
    expect(first).toContain('//elsewhere.example');
    expect(more).toEqual([]);
  });

  it.each([
    ['any host', policy(' *'), 'index.html: *'],
    ['no policy', '<p>', 'index.html: no Content-Security-Policy'],
    [
      'an open policy',
      '<meta http-equiv=Content-Security-Policy content="img-src data:">',
      "index.html: a policy without default-src 'none'",
    ],
    [
      "Office's script outside the pane",
      `${policy()}<script src="https://appsforoffice.microsoft.com/office.js">`,
      'index.html: https://appsforoffice.microsoft.com/office.js',
    ],
  ])('finds %s', (_, text, wrong) => {
    expect(found('index.html', text)).toEqual([wrong]);
  });
});
