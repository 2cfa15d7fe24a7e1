/** What the build embeds (plugin.ts); read it through page.ts, which says its types. */
declare module 'virtual:sayso-cues';
