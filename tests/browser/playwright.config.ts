import { defineConfig } from '@playwright/test';

const chromium = process.env['CHROMIUM'];
const port = Number(process.env['BROWSER_PORT'] ?? 4617);

export default defineConfig({
	testDir: '.',
	outputDir: '../../test-results/browser',
	fullyParallel: true,
	workers: 2,
	timeout: 90_000,
	// What a test waits for comes when it comes: a busy machine takes seconds to open a page.
	expect: { timeout: 15_000 },
	use: {
		baseURL: `http://localhost:${port}`,
		acceptDownloads: true,
		// It would fetch the whole program anew for every test; offline.test.ts lets it.
		serviceWorkers: 'block',
		// What plays by itself is for the tests that wait for it.
		contextOptions: { reducedMotion: 'reduce' },
		launchOptions: {
			...(chromium && { executablePath: chromium }),
			args: [
				'--no-sandbox',
				'--disable-gpu',
				'--disable-quic',
				'--no-first-run',
				'--disable-background-networking',
				'--disable-component-update',
				'--disable-sync',
			],
		},
	},
	webServer: {
		command: 'node serve.js',
		env: { PORT: `${port}` },
		port,
		reuseExistingServer: false,
	},
});
