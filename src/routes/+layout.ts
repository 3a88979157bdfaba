// Every sheet is written when the program is built, with the figures of the first scenario, so that the first
// of them is there before any script is. The job that is kept in the browser takes its place there.
export const prerender = true;
export const trailingSlash = 'always';
