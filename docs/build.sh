#!/bin/sh
# Builds the site of guides and reference into build/docs/html: sh docs/build.sh
#
# Installs doxygen, its style and MathJax where they are missing (Debian). Fails on a public name without a docstring and on a broken
# reference. Pages, search and formulas work from the folder as it stands; nothing is fetched.
set -eu
cd "$(dirname "$0")/.."
. tests/install.sh
mathjax=/usr/share/javascript/mathjax
style=/usr/share/doxygen-awesome-css
need doxygen doxygen "$style/doxygen-awesome.css" doxygen-awesome-css "$mathjax/MathJax.js" libjs-mathjax
rm -rf build/docs
mkdir -p build/docs/html/mathjax
# The page's head as this doxygen has it, with the switch between light and dark.
doxygen -w html build/docs/header.html build/docs/footer.html build/docs/style.css docs/Doxyfile >build/docs/log 2>&1
sed -i 's|</head>|<script type="text/javascript" src="$relpath^doxygen-awesome-darkmode-toggle.js"></script>\n<script type="text/javascript">DoxygenAwesomeDarkModeToggle.init()</script>\n</head>|' build/docs/header.html
doxygen docs/Doxyfile >build/docs/log 2>&1 || {
    grep -E 'error|warning' build/docs/log | sed "s|$PWD/||" | head -40
    exit 1
}
cp docs/*.png build/docs/html
# What TeX in HTML needs of MathJax; the package links its fonts, hence -L.
cp -rL "$mathjax/MathJax.js" "$mathjax/extensions" build/docs/html/mathjax
mkdir -p build/docs/html/mathjax/jax/output build/docs/html/mathjax/jax/input build/docs/html/mathjax/fonts/HTML-CSS/TeX
cp -rL "$mathjax/jax/element" build/docs/html/mathjax/jax
cp -rL "$mathjax/jax/input/TeX" build/docs/html/mathjax/jax/input
cp -rL "$mathjax/jax/output/HTML-CSS" build/docs/html/mathjax/jax/output
cp -rL "$mathjax/fonts/HTML-CSS/TeX/woff" "$mathjax/fonts/HTML-CSS/TeX/otf" build/docs/html/mathjax/fonts/HTML-CSS/TeX
echo "build/docs/html/index.html: $(find build/docs/html -maxdepth 1 -name '*.html' | wc -l) pages"
