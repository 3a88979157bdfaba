// A job lives in the browser only, so pages are shells that fill themselves there.
export const ssr = false;
export const prerender = true;
export const trailingSlash = 'always';
