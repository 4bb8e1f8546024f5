// The run's token: in the address once, then only in this tab's storage.

const KEY = 'quoin.token';

function take_token(): string {
  const mark = location.hash.slice(1);
  if (mark !== '' && !mark.startsWith('/')) {
    sessionStorage.setItem(KEY, mark);
    history.replaceState(null, '', `${location.pathname}#/`);
    return mark;
  }
  return sessionStorage.getItem(KEY) ?? '';
}

export const token = take_token();
