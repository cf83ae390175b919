import config from './playwright.config.ts';

/** Every screen looked at in light and dark, with pictures kept: twice as long as the end-to-end tests alone. */
process.env.LOOKS = 'all';
export default config;
