"""The one look of everything printed, and that of the page on the wall.

No size of the paper is set: A4 and US letter both take it. A page ends between rows, never within
one; what heads a table stands again on the next page, as do vehicle and day. Black on white, so
that it can be copied: what warns has a thick frame and its word in white on black.
"""

_WIDTHS = "".join(f".w{share} {{ width: {share}%; }} " for share in range(4, 97))

PRINT = f"""
@page {{
  margin: 9mm 12mm 12mm;
  @bottom-left {{ content: "made with Crewboard"; font: 8pt sans-serif; color: #555; }}
  @bottom-right {{
    content: "page " counter(page) " of " counter(pages); font: 8pt sans-serif; color: #000;
  }}
}}
* {{ box-sizing: border-box; }}
body {{
  font: 10pt/1.22 "Liberation Sans", Arial, Helvetica, sans-serif; color: #000; background: #fff;
  margin: 2em auto; max-width: 186mm; overflow-wrap: break-word;
}}
a {{ color: inherit; }}
.ways {{ font-size: 9pt; }}
.ways a {{ margin-right: 3mm; white-space: nowrap; }}
@media print {{
  body {{ margin: 0; max-width: none; }}
  a {{ text-decoration: none; }}
  .ways {{ display: none; }}
}}
.page {{ width: 100%; border-collapse: collapse; }}
.page > thead > tr > th {{ padding: 0 0 2mm; font-weight: normal; }}
.page > tbody > tr > td {{ padding: 0; vertical-align: top; }}
.head {{
  display: flex; justify-content: space-between; gap: 6mm; font-size: 9pt; text-align: left;
  border-bottom: .5pt solid #000; padding-bottom: .7mm;
}}
.head :first-child {{ font-weight: bold; }}
h1, h2, h3 {{ break-after: avoid; line-height: 1.15; }}
h1 {{ font-size: 15pt; margin: 0 0 1mm; }}
h2 {{ font-size: 11.5pt; margin: 2.4mm 0 .6mm; }}
h3 {{ font-size: 10pt; margin: 2mm 0 .5mm; }}
p {{ margin: 1mm 0; }}
ul {{ margin: 0 0 1mm; padding-left: 4.5mm; }}
li, td, th, p, h1, h2, h3 {{ unicode-bidi: isolate; }}
li {{ break-inside: avoid; margin: .25mm 0; }}
li.n {{ list-style: none; text-indent: -4.5mm; }}
.apart h2 {{ font-size: 14pt; border-bottom: 1.2pt solid #000; }}
.apart .page > tbody > tr > td > section + section {{ break-before: page; }}
.two {{ columns: 2; column-gap: 8mm; }}
.caution {{ font-size: 8.5pt; border-left: 3pt solid #000; padding-left: 2mm; margin: 1mm 0 2mm; }}
.danger, .warning, .must {{ border: 1.2pt solid #000; margin: 2.5mm 0; padding: 0 2mm 1mm; }}
.danger {{ border-width: 2.5pt; }}
.danger, .warning, .must {{ break-inside: avoid; }}
.danger > h2, .warning > h2, .must > h2 {{
  display: inline-block; margin: 0 0 1mm -2mm; padding: .6mm 3mm; color: #fff; background: #000;
  print-color-adjust: exact; -webkit-print-color-adjust: exact;
}}
.must > h2 {{ color: #000; background: none; border: solid #000; border-width: 0 1pt 1pt 0; }}
.ruled {{ width: 100%; border-collapse: collapse; margin: .5mm 0 1mm; }}
.ruled th, .ruled td {{
  border: .5pt solid #666; padding: .35mm 1.2mm; text-align: left; vertical-align: top;
}}
.ruled th {{ font-size: 8.5pt; vertical-align: bottom; border-bottom: 1.2pt solid #000; }}
.ruled tr {{ break-inside: avoid; }}
.ruled .right {{ text-align: right; font-variant-numeric: tabular-nums; }}
.ruled td.right, .ruled td.kept {{ white-space: nowrap; }}
.pictures {{ display: flex; flex-wrap: wrap; gap: 3mm; margin: 1mm 0 2mm; break-before: avoid; }}
figure {{ margin: 0; width: 56mm; break-inside: avoid; }}
figure img {{ max-width: 100%; max-height: 60mm; border: .5pt solid #666; }}
figcaption {{ font-size: 8pt; line-height: 1.2; overflow-wrap: anywhere; }}
.total tr:last-child td {{ font-weight: bold; border-top: 1.2pt solid #000; }}
.line td {{ height: 8mm; }}
.box td {{ height: 10mm; }}
.tick {{
  display: inline-block; width: 5.5mm; height: 5.5mm; border: 1pt solid #000;
  margin: .2mm 1.2mm 0 0; vertical-align: middle;
}}
.text .tick {{ width: 4mm; height: 4mm; }}
.says {{ font-size: 7.5pt; color: #333; }}
.blank {{ display: inline-block; min-width: 16mm; border-bottom: .5pt solid #000; }}
.fill {{ white-space: nowrap; margin-right: 2.5mm; }}
.signed {{ display: flex; flex-wrap: wrap; gap: 4mm 8mm; margin-top: 6mm; break-inside: avoid;
  break-before: avoid; }}
.signed div {{
  flex: 1 1 50mm; border-top: .7pt solid #000; padding-top: .7mm; font-size: 8.5pt;
}}
.close {{ font-size: 9pt; line-height: 1.2; }}
.close.large {{ font-size: 10.5pt; }}
.close .head {{ display: none; }}
.close .page > thead > tr > th {{ padding: 0; }}
.close h1 {{ font-size: 12pt; margin: 0; }}
.close > .page .danger, .close > .page .must {{
  display: grid; grid-template-columns: 30mm 1fr; padding: 0; align-items: start;
}}
.close > .page .danger > h2, .close > .page .must > h2 {{ margin: 0; }}
.close > .page .danger > ul, .close > .page .must > ul {{ padding: .6mm 1mm .6mm 5mm; }}
.close .ruled {{ margin: 1mm 0 0; }}
.close .ruled th {{ padding-bottom: .2mm; }}
.close .ruled th:first-child {{ font-size: 10pt; }}
.close .ruled td {{ padding: .4mm 1.2mm; }}
.close section:not([class]) > ul {{ columns: 1; font-weight: bold; list-style: none; padding: 0; }}
.close h2 {{ font-size: 10pt; margin: 1.6mm 0 .6mm; }}
.close .danger, .close .warning, .close .must {{ margin: 1.6mm 0; padding-bottom: .5mm; }}
.close ul {{ columns: 2; column-gap: 6mm; margin: 0; }}
.close .wide ul {{ columns: 1; }}
.close li {{ margin: .2mm 0; }}
.close .caution {{ margin: .5mm 0; font-size: 8pt; }}
.flows {{ font-size: 8pt; line-height: 1.14; }}
.flows .page > tbody > tr > td {{ columns: 2; column-gap: 8mm; }}
.flows h1, .flows .caution {{ column-span: all; margin: 0 0 1mm; }}
.flows .caution {{ font-size: 7.5pt; }}
.flows h2 {{ font-size: 10pt; margin: 2mm 0 .8mm; border-bottom: 1pt solid #000; }}
.flows ul {{ columns: 1; list-style: none; margin: 0; padding: 0; }}
.flows li {{ margin: .35mm 0; padding-left: 3mm; text-indent: -3mm; break-inside: avoid; }}
.flows .in {{ margin-top: -.3mm; padding-left: 6mm; break-before: avoid; }}
.cards {{ display: flex; flex-wrap: wrap; }}
.card {{
  width: 50%; min-height: 57mm; padding: 2.5mm 4mm; border: .7pt dashed #555; break-inside: avoid;
}}
.card .word {{ font-size: 17pt; font-weight: bold; margin: 0 0 1mm; line-height: 1.1; }}
.card.danger, .card.warning, .card.must {{ margin: 0; border: .7pt dashed #555; }}
.card.danger .word {{
  color: #fff; background: #000; padding: 1mm 2.5mm;
  print-color-adjust: exact; -webkit-print-color-adjust: exact;
}}
.card .name {{ font-size: 13pt; font-weight: bold; line-height: 1.15; margin: 1.5mm 0; }}
.card table {{ border-collapse: collapse; width: 100%; }}
.card th {{
  text-align: left; font-weight: normal; font-size: 8pt; color: #333; vertical-align: top;
  padding: .6mm 2mm .6mm 0; width: 20mm;
}}
.card td {{ font-size: 10pt; vertical-align: top; padding: .4mm 0; }}
.card.danger tr:first-child td {{ font-size: 12pt; font-weight: bold; }}
.card tr:has(.blank) th {{ vertical-align: bottom; }}
.card td .blank {{ min-width: 90%; height: 6mm; }}
.large .card {{ width: 100%; min-height: 122mm; padding: 4mm 6mm; }}
.large .card .word {{ font-size: 20pt; border-bottom: 2pt solid #000; padding-bottom: 1mm; }}
.large .read {{ columns: 2; column-gap: 7mm; font-size: 13.5pt; line-height: 1.25; }}
.large .read section {{ break-inside: avoid; margin: 0 0 2.5mm; }}
.large .read section:first-child {{ column-span: all; font-size: 15pt; margin-top: 2mm; }}
.large .card h2 {{ font-size: 11pt; margin: 2mm 0 .5mm; }}
.large .card ul {{ columns: 1; margin: 0; padding-left: 5mm; }}
.large .card li:only-child {{ list-style: none; margin-left: -4mm; }}
{_WIDTHS}
"""

WALL = """
* { box-sizing: border-box; margin: 0; }
html, body { height: 100%; overflow: hidden; }
body {
  display: flex; flex-direction: column; background: #fff; color: #101418;
  font: min(3.4vw, 6vh)/1.14 "Liberation Sans", Arial, Helvetica, sans-serif;
  overflow-wrap: break-word;
}
.stage { flex: 1; display: flex; flex-direction: column; min-height: 0; }
.stage[hidden] { display: none; }
footer { flex: none; padding: .2vh 1.4vw; font-size: .4em; background: #23435f; color: #fff; }
header span, header b { white-space: nowrap; }
header {
  display: flex; justify-content: space-between; gap: 2vw; padding: .8vh 1.4vw;
  background: #23435f; color: #fff; font-size: .72em;
}
.missing { background: #101418; color: #fff; padding: .8vh 1.4vw; font-size: .8em; }
main { flex: 1; display: grid; grid-template-columns: 1fr 1fr; min-height: 0; }
.side { display: flex; flex-direction: column; min-width: 0; min-height: 0; }
section { padding: .7vh 1.4vw; unicode-bidi: isolate; min-width: 0; }
.side > section:only-child { flex: 1; }
.side + .side > section { border-bottom: .3vh solid #9aa6b2; }
.side + .side > section:last-child { border-bottom: none; }
h2 { font-size: .62em; letter-spacing: .04em; }
.danger { background: #b01c2e; color: #fff; }
.danger h2 { font-size: .85em; }
.safe { background: #1d6b43; color: #fff; }
p { unicode-bidi: isolate; }
.danger p, .safe p {
  display: flex; flex-wrap: wrap; justify-content: space-between; column-gap: 1vw; padding: .25vh 0;
}
.side + .side { font-size: .85em; }
.side + .side p > span { display: block; font-size: .85em; }
.more { font-weight: bold; }
"""
