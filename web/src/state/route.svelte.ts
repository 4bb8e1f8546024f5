// Where the maker is: "#/cards/shell-1". Each part of a game has an address, so that going back
// works and a problem can lead to its place.

class Route {
  parts = $state.raw<string[]>(read_parts());

  constructor() {
    addEventListener('hashchange', () => (this.parts = read_parts()));
  }

  get view(): string {
    return this.parts[0] || 'table';
  }

  go(...parts: string[]): void {
    location.hash = to(...parts);
  }
  /** Goes there without a new step in the browser's history. */
  swap(...parts: string[]): void {
    history.replaceState(null, '', to(...parts));
    this.parts = read_parts();
  }
}

export function to(...parts: string[]): string {
  return `#/${parts.map(encodeURIComponent).join('/')}`;
}

function read_parts(): string[] {
  const text = location.hash.startsWith('#/') ? location.hash.slice(2) : '';
  return text.split('/').map((part) => {
    try {
      return decodeURIComponent(part);
    } catch {
      return part;
    }
  });
}

export const route = new Route();
