// The views of the desk, in the order in which a game comes about. A view is a folder, an address
// and a line here.

import type { Component } from 'svelte';
import ArtView from './art/ArtView.svelte';
import BoxView from './box/BoxView.svelte';
import CardsView from './cards/CardsView.svelte';
import CuttingView from './cutting/CuttingView.svelte';
import LayoutView from './layout/LayoutView.svelte';
import ListView from './list/ListView.svelte';
import MakeView from './make/MakeView.svelte';
import MatView from './mat/MatView.svelte';
import PrinterView from './printer/PrinterView.svelte';
import RulesView from './rules/RulesView.svelte';
import ShareView from './share/ShareView.svelte';
import SheetsView from './sheets/SheetsView.svelte';
import TableView from './table/TableView.svelte';

export interface View {
  name: string;
  label: string;
  component: Component;
}

export const views: View[] = [
  { name: 'table', label: 'Table', component: TableView },
  { name: 'cards', label: 'Cards', component: CardsView },
  { name: 'list', label: 'List', component: ListView },
  { name: 'layout', label: 'Layout', component: LayoutView },
  { name: 'art', label: 'Art', component: ArtView },
  { name: 'rules', label: 'Rules', component: RulesView },
  { name: 'sheets', label: 'Sheets', component: SheetsView },
  { name: 'cutting', label: 'Cutting', component: CuttingView },
  { name: 'box', label: 'Box', component: BoxView },
  { name: 'mat', label: 'Mat', component: MatView },
  { name: 'printer', label: 'Printer', component: PrinterView },
  { name: 'make', label: 'Make', component: MakeView },
  { name: 'share', label: 'Share', component: ShareView },
];
