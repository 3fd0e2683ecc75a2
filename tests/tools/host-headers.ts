/** A static host's reading of the file _headers: a path, then its headers, each further in. */

type Rules = ReadonlyMap<string, ReadonlyMap<string, string>>;

export function headerRules(text: string): Rules {
  const rules = new Map<string, Map<string, string>>();
  let current = new Map<string, string>();
  for (const line of text.split('\n').filter(Boolean)) {
    const header = /^ +([\w-]+): (.+)$/.exec(line);
    if (header) current.set(header[1] as string, header[2] as string);
    else rules.set(line, (current = new Map()));
  }
  return rules;
}

const fits = (pattern: string, path: string): boolean =>
  pattern.endsWith('*') ? path.startsWith(pattern.slice(0, -1)) : path === pattern;

/** What a host sends with a file. Throws for a header that two rules name: it would be sent twice. */
export function headersSent(rules: Rules, path: string): Map<string, string> {
  const sent = new Map<string, string>();
  for (const [pattern, headers] of rules) {
    if (!fits(pattern, path)) continue;
    for (const [name, value] of headers) {
      if (sent.has(name)) throw new Error(`${path} gets ${name} twice`);
      sent.set(name, value);
    }
  }
  return sent;
}
