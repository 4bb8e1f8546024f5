import { mount } from 'svelte';
import './style/tokens.css';
import './style/page.css';
import App from './App.svelte';

const target = document.getElementById('page');
if (target) mount(App, { target });
