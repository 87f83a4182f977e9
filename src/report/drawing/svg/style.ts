/** How lines, words and standings look. Every standing has a pattern and a sign of its own beside its colour. */

const hatch = (id: string, colour: string, path: string, size = 6): string =>
  `<pattern id="${id}" width="${size}" height="${size}" patternUnits="userSpaceOnUse"><path d="${path}" style="stroke:${colour};stroke-width:0.8;stroke-opacity:0.6"/></pattern>`;

export const STYLE = `<defs>
${hatch('suspect', '#b45f00', 'M0 6L6 0')}
${hatch('confirmed', '#b00020', 'M0 6L6 0M0 0L6 6')}
${hatch('cleared', '#1b7a34', 'M3 2L3 4M2 3L4 3', 8)}
${hatch('assumed', '#555', 'M0 3L6 3')}
</defs>
<style>
.paper{fill:#fff}
path,rect,circle{stroke:#000;stroke-width:1.1;fill:none;stroke-linecap:round;stroke-linejoin:round}
.paper,.back{stroke:none}
path.bold{stroke-width:3.2;stroke-linecap:butt}
path.full{fill:#fff}
.dot{fill:#000}
text{font-family:"DejaVu Sans",Arial,Helvetica,sans-serif;font-size:9px;fill:#000}
text.title{font-size:13px;font-weight:bold}
text.name{font-weight:bold}
text.small{font-size:7px;fill:#333}
text.wire{font-size:7.5px;fill:#333}
text.in{font-size:11px;text-anchor:middle}
text.sign{font-size:12px;font-weight:bold;text-anchor:middle}
text.mark{font-weight:bold}
path.suspect{stroke-width:2.4;stroke:#b45f00;stroke-dasharray:7 2}
path.confirmed{stroke-width:3;stroke:#b00020;stroke-dasharray:2 2}
path.cleared{stroke:#1b7a34}
path.not-on-its-own,path.assumed{stroke:#555;stroke-width:0.9}
text.suspect{fill:#8a4900;font-weight:bold}
text.confirmed{fill:#b00020;font-weight:bold}
text.cleared{fill:#1b7a34}
text.not-on-its-own{fill:#777}
.back.suspect{fill:url(#suspect)}
.back.confirmed{fill:url(#confirmed)}
.back.cleared{fill:url(#cleared)}
.back.assumed{fill:url(#assumed)}
</style>`;
