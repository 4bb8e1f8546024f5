#include "scenes.h"

#include <fmt/format.h>

namespace quoin::trials {
namespace {

KnownPicture scene(const char* name, const char* defs, const char* body) {
  return {name,
          fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300\" height=\"300\" "
                      "viewBox=\"0 0 300 300\"><defs>{}</defs>{}</svg>",
                      defs, body),
          300, 300};
}

}  // namespace

std::vector<KnownPicture> gradient_scenes() {
  return {
      scene("sky-and-sun",
            R"svg(<linearGradient id="s" x1="0" y1="0" x2="0" y2="1">
<stop offset="0" stop-color="#16324f"/><stop offset=".6" stop-color="#e08d5a"/>
<stop offset="1" stop-color="#f6d8a0"/></linearGradient>)svg",
            R"svg(<rect width="300" height="300" fill="url(#s)"/><circle cx="195" cy="120" r="42"
fill="#fff3c4"/><path d="M0 240Q75 205 150 235T300 225V300H0Z" fill="#20505a"/>)svg"),
      scene("ball",
            R"svg(<radialGradient id="b" gradientUnits="userSpaceOnUse" cx="120" cy="115" r="150">
<stop offset="0" stop-color="#ffe9e0"/><stop offset=".45" stop-color="#d8503c"/>
<stop offset="1" stop-color="#501410"/></radialGradient>)svg",
            R"svg(<rect width="300" height="300" fill="#eef2f0"/><ellipse cx="155" cy="262"
rx="95" ry="14"
fill="#c9d3d0"/><circle cx="150" cy="150" r="105" fill="url(#b)"/>)svg"),
      scene("shell",
            R"svg(<radialGradient id="k" gradientUnits="userSpaceOnUse" cx="150" cy="270" r="230">
<stop offset="0" stop-color="#8a3f2a"/>
<stop offset="1" stop-color="#fbe3c8"/></radialGradient>)svg",
            R"svg(<rect width="300" height="300" fill="#1d5560"/><path d="M150 275L40 150A135 135
0 0 1
260 150Z" fill="url(#k)"/><path d="M150 275L95 120l10-3zM150 275l-8-190h16zM150 275L195 117l10 3z"
fill="#5c2417"/>)svg"),
      scene("vignette",
            R"svg(<radialGradient id="v" gradientUnits="userSpaceOnUse" cx="150" cy="150" r="212">
<stop offset="0" stop-color="#f4ead2"/><stop offset=".55" stop-color="#e9d5a8"/>
<stop offset="1" stop-color="#6d5330"/></radialGradient>)svg",
            R"svg(<rect width="300" height="300" fill="url(#v)"/><path d="M90 210L150 80L210 210Z"
fill="#25404a"/><path d="M120 210L150 145L180 210Z" fill="#c65b3a"/>)svg"),
      scene("slanted-sea",
            R"svg(<linearGradient id="a" gradientUnits="userSpaceOnUse" x1="0" y1="0" x2="300"
y2="200">
<stop offset="0" stop-color="#0b3c5d"/>
<stop offset="1" stop-color="#6fc3c1"/></linearGradient>
<linearGradient id="c" gradientUnits="userSpaceOnUse" x1="60" y1="240" x2="240" y2="180">
<stop offset="0" stop-color="#f2b705"/>
<stop offset="1" stop-color="#d9480f"/></linearGradient>)svg",
            R"svg(<rect width="300" height="300" fill="url(#a)"/><path d="M60 180H240L205 245H95Z"
fill="url(#c)"/><path d="M148 60V175H70Z" fill="#fff"/><path d="M156 80V175H225Z"
fill="#f4e3c1"/>)svg"),
      scene("lamp",
            R"svg(<radialGradient id="l" gradientUnits="userSpaceOnUse" cx="150" cy="110" r="170">
<stop offset="0" stop-color="#fff6c9"/><stop offset=".3" stop-color="#f3b94d"/>
<stop offset="1" stop-color="#15202b"/></radialGradient>
<linearGradient id="m" gradientUnits="userSpaceOnUse" x1="110" y1="0" x2="190" y2="0">
<stop offset="0" stop-color="#7c8a91"/><stop offset=".5" stop-color="#dfe6e9"/>
<stop offset="1" stop-color="#59666d"/></linearGradient>)svg",
            R"svg(<rect width="300" height="300" fill="url(#l)"/><path d="M125 150H175L190
300H110Z"
fill="url(#m)"/><rect x="118" y="140" width="64" height="12" fill="#2b3a42"/>)svg"),
  };
}

}  // namespace quoin::trials
