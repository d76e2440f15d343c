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
