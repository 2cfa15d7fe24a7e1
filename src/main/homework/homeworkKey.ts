/** Where homework lies in the page's storage. */
export const KEPT_KEY = 'sayso-homework';
