// The run's token: in the address once, then only in this tab's storage.

const KEY = 'quoin.token';

/** What stands behind the # of an address as the desk prints it; "" on an address of the page. */
function printed_token(): string {
  const mark = location.hash.slice(1);
  return mark.startsWith('/') ? '' : mark;
}

function take_token(): string {
  const mark = printed_token();
  if (mark !== '') {
    sessionStorage.setItem(KEY, mark);
    history.replaceState(null, '', `${location.pathname}#/`);
    return mark;
  }
  return sessionStorage.getItem(KEY) ?? '';
}

// The address of a desk started anew, opened in the tab of the earlier one, changes only what
// stands behind the #, so the browser loads nothing by itself.
addEventListener('hashchange', () => {
  if (printed_token() === '') return;
  take_token();
  location.reload();
});

export const token = take_token();
