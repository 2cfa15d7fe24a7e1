/**
 * What the built page may load and do (Content Security Policy, level 3): only what lies beside it.
 * No script in the page, no evaluation but of WebAssembly, no frame, no form that is sent, and
 * nothing from or to anywhere else. `blob:` is the coach's own music.
 */
export const POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  "media-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
