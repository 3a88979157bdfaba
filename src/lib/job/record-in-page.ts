/** The file of a job within a page of HTML: put in as data that nothing shows or runs, and taken out again. */

const begins = '<template id="ride-height-job">';
const ends = '</template>';

/** @param file JSON, which reads the same where the signs of HTML are written by their numbers */
export function inPage(file: string): string {
	const signs = /[<>&\u2028\u2029]/g;
	const plain = file.replace(
		signs,
		(sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
	);
	return `${begins}${plain}${ends}`;
}

/** What to read a job from: the file in a page, or the text itself where it is no such page. */
export function fileIn(text: string): string {
	const start = text.indexOf(begins);
	if (start < 0 || !/^\s*<!doctype html/i.test(text)) return text;
	const end = text.indexOf(ends, start);
	return text.slice(start + begins.length, end < 0 ? undefined : end);
}
