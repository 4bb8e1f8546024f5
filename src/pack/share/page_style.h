#pragma once

namespace quoin::pack {

/// How the page of a share looks: the fonts of the system, one column on a phone, colours with 4.5
/// to 1 of contrast at the least (WCAG 2.2, 1.4.3) in light and in dark.
inline constexpr const char* page_style = R"css(
:root{--paper:#fbfaf7;--card:#fff;--ink:#1c2126;--quiet:#545c64;--line:#dcd9d1;--go:#0b5a6b;
--on-go:#fff;--link:#0b5a6b;--wash:#eef3f3}
@media(prefers-color-scheme:dark){:root{--paper:#15181b;--card:#1e2226;--ink:#eceae5;
--quiet:#a9b0b6;--line:#353b41;--go:#7fcbd8;--on-go:#0d1c20;--link:#8fd3df;--wash:#1b2629}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;scroll-behavior:smooth}
@media(prefers-reduced-motion:reduce){html{scroll-behavior:auto}}
body{margin:0;background:var(--paper);color:var(--ink);
font:1.0625rem/1.55 system-ui,-apple-system,"Segoe UI",sans-serif}
header,main,footer{max-width:66rem;margin:0 auto;padding:0 1.25rem}
header{display:grid;gap:2rem;align-items:center;padding-top:2.5rem;padding-bottom:1.5rem}
@media(min-width:48rem){header{grid-template-columns:minmax(0,1fr) minmax(0,1fr);
padding-top:4rem;padding-bottom:3rem}}
h1{font-size:clamp(2.5rem,8vw,4.25rem);line-height:1.04;letter-spacing:-.02em;margin:.1em 0 .2em;
overflow-wrap:anywhere;text-wrap:balance}
h2{font-size:1.6rem;line-height:1.2;margin:0 0 .9rem;letter-spacing:-.01em}
h3{font-size:1.25rem;line-height:1.3;margin:0 0 .25rem}
p{margin:0 0 1rem;max-width:40rem}
.subtitle{font-size:1.3rem;line-height:1.35}
.by,.where,figcaption,.files p,footer{color:var(--quiet)}
.dots{display:flex;gap:.4rem;margin-bottom:1rem}
.dots i{width:1.1rem;height:1.1rem;border-radius:50%;border:1px solid rgb(128 128 128/.35)}
img{max-width:100%;height:auto;display:block}
.cover{justify-self:center;max-height:28rem;width:auto}
section{border-top:1px solid var(--line);padding:2.25rem 0}
ul{margin:0 0 1rem;padding-left:1.2rem}
li{margin:.25rem 0;max-width:46rem;overflow-wrap:anywhere}
a{color:var(--link)}
a:focus-visible{outline:3px solid var(--go);outline-offset:3px;border-radius:4px}
.go{display:inline-block;background:var(--go);color:var(--on-go);padding:.7rem 1.3rem;
border-radius:.6rem;font-weight:600;text-decoration:none}
.papers{display:grid;gap:1.25rem;margin:1.25rem 0 1.75rem}
@media(min-width:44rem){.papers{grid-template-columns:1fr 1fr}}
article{background:var(--card);border:1px solid var(--line);border-radius:.9rem;
padding:1.25rem 1.25rem .5rem}
.where{margin-bottom:.5rem;font-size:.95rem}
.files{list-style:none;padding:0;margin:0}
.files li{margin:0;border-top:1px solid var(--line);max-width:none}
.files a{display:flex;flex-wrap:wrap;justify-content:space-between;gap:.15rem 1rem;
padding:.8rem .1rem;min-height:2.75rem;text-decoration:none}
.files a:hover .what{text-decoration:underline}
.files p{margin:-.5rem 0 .7rem;font-size:.95rem}
.what{font-weight:600}
.heard{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);
white-space:nowrap}
.size{color:var(--quiet);font-variant-numeric:tabular-nums}
.inks{display:grid;gap:1.5rem}
@media(min-width:44rem){.inks{grid-template-columns:1fr 1fr}}
figure{margin:0}
.cards{display:flex;gap:.6rem;background:var(--wash);padding:.9rem;border-radius:.9rem}
.cards img{flex:1 1 0;min-width:0;filter:drop-shadow(0 1px 2px rgb(0 0 0/.35))}
figcaption{margin-top:.5rem}
.sheet{border-radius:.6rem;margin-bottom:1rem;width:100%}
footer{padding-top:1.5rem;padding-bottom:3rem;font-size:.95rem;border-top:1px solid var(--line)}
)css";

}  // namespace quoin::pack
