import { mount } from 'svelte';
import Briefing from './Briefing.svelte';
import { readData } from './data';
import '../page.css';
import './table.css';

const target = document.getElementById('page');
if (target) mount(Briefing, { target, props: { data: readData() } });
