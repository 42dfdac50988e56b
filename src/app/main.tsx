import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './App';
import './css/index.css';
import { browserServices } from './services/browser';
import { readLanguage, showLanguage } from './services/language';
import { readTheme, showTheme } from './services/theme';

showTheme(readTheme());
showLanguage(readLanguage());
const root = document.getElementById('root');
if (!root) throw new Error('index.html has no #root');
createRoot(root).render(
  <StrictMode>
    <App services={browserServices()} />
  </StrictMode>,
);
