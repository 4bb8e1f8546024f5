// The stand-in's rules: a text that can be changed, on two pages.

const size = (width, height) => ({ width, height });

export function rules_info(game) {
  game.rules ??= '# Tidewrack\n\n*For two to four.*\n\n## A walk\n\nTurn up the top card.\n';
  return {
    revision: game.revision,
    file: 'rules.md',
    text: game.rules,
    asked: { form: null, panels: null, type: null },
    form: {
      kind: 'flat',
      panels: 1,
      leaves: 1,
      bothSides: true,
      words: 'a sheet that is not folded',
      pages: 2,
      shown: 2,
      filled: 2,
      page: size(62.5, 88),
      folded: size(62.5, 88),
      thickness: 0.1,
      type: 8,
      sheets: 1,
      sheet: size(210, 297),
      why: ['a sheet that is not folded: 2 pages'],
      options: [
        {
          kind: 'flat',
          panels: 1,
          leaves: 1,
          pages: 2,
          needed: 2,
          verdict: 'chosen',
          words: 'a sheet that is not folded has 2 pages, and the text takes 2 at 8 pt',
        },
      ],
      steps: [],
    },
    counts: [],
    symbols: ['shell', 'sea'],
    findings: [],
  };
}
