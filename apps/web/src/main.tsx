import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.js';
import './look/paper.css';
import './look/letters.css';
import './look/controls.css';
import './look/lists.css';

const root = document.getElementById('page');
if (!root) throw new Error('index.html has no element with the id "page"');
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);

// Keeps the page for days without a line. While it is being made, each edit must be seen.
if (import.meta.env.PROD && 'serviceWorker' in navigator) void navigator.serviceWorker.register('/sw.js');
