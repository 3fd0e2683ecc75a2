import type { Paper } from '../plan/workbook-model';

/** Pages for the printer: one column, black on white, what belongs together on one page. */
export const reportStyle = (paper: Paper): string => `
@page { size: ${paper}; margin: 16mm 15mm 18mm; @bottom-right { content: counter(page) " / " counter(pages); font: 8pt sans-serif; } }
* { box-sizing: border-box; }
body { font: 9.5pt/1.4 "Segoe UI", "Helvetica Neue", Arial, sans-serif; color: #1c2a30; margin: 0 auto; max-width: 180mm; }
@media screen { body { padding: 8mm 4mm; } }
header { border-bottom: 0.6mm solid #184a5a; margin-bottom: 4mm; }
h1 { font-size: 20pt; margin: 0 0 1mm; color: #184a5a; }
h2 { font-size: 13pt; margin: 6mm 0 2mm; color: #184a5a; break-after: avoid; }
h3 { font-size: 10.5pt; margin: 4mm 0 1mm; break-after: avoid; }
.logo { float: right; max-height: 18mm; max-width: 50mm; }
table { border-collapse: collapse; width: 100%; margin: 1.5mm 0 3mm; }
th, td { text-align: left; vertical-align: top; padding: 0.6mm 1.5mm 0.6mm 0; border-bottom: 0.1mm solid #b9c6ca; font-weight: 400; overflow-wrap: break-word; }
.number { white-space: nowrap; }
section:nth-of-type(2) { break-before: page; }
.year { break-inside: avoid; }
thead { display: table-header-group; }
thead th { font-weight: 600; vertical-align: bottom; border-bottom: 0.3mm solid #184a5a; }
tr { break-inside: avoid; }
.grid tbody th { white-space: nowrap; }
.lines th { width: 42%; }
.lines .figure { width: 22%; font-weight: 600; }
.lines .remark, .from, .note { color: #465a62; font-size: 8.5pt; }
.verdict { font-weight: 600; }
.drawing, .chart { width: 100%; display: block; margin: 2mm 0; break-inside: avoid; }
.drawing .tank { fill: #cfe3ec; stroke: #184a5a; stroke-width: 0.3; }
.drawing .sump { fill: #e7eef0; stroke: #184a5a; stroke-width: 0.3; stroke-dasharray: 1 0.6; }
.drawing .bed { fill: #dcebd8; stroke: #3f6a35; stroke-width: 0.25; }
.drawing text { font: 2.3px sans-serif; text-anchor: middle; fill: #1c2a30; }
.drawing .amount { font-size: 1.8px; }
.drawing .scale { text-anchor: start; }
.drawing .flow { fill: none; stroke: #184a5a; stroke-width: 0.5; }
.drawing marker path { fill: #184a5a; }
.drawing .bar { stroke: #1c2a30; stroke-width: 0.7; }
.chart text { font: 2.6px sans-serif; fill: #1c2a30; }
.chart .end { text-anchor: end; }
.chart .line { fill: none; stroke: #184a5a; stroke-width: 0.6; }
.chart .grid { stroke: #b9c6ca; stroke-width: 0.15; }
ul { margin: 1mm 0 3mm; padding-left: 5mm; }
li { margin-bottom: 0.8mm; break-inside: avoid; }
`;
