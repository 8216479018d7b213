#!/bin/sh
# Builds the reference into build/docs/html: sh docs/build.sh
#
# Installs doxygen and MathJax where they are missing (Debian). Fails on a public name without a docstring and on a broken
# reference. Pages, search and formulas work from the folder as it stands; nothing is fetched.
set -eu
cd "$(dirname "$0")/.."
. tests/install.sh
mathjax=/usr/share/javascript/mathjax
need doxygen doxygen "$mathjax/MathJax.js" libjs-mathjax
rm -rf build/docs
mkdir -p build/docs/html/mathjax
doxygen docs/Doxyfile >build/docs/log 2>&1 || {
    grep -E 'error|warning' build/docs/log | sed "s|$PWD/||" | head -40
    exit 1
}
# What TeX in HTML needs of MathJax; the package links its fonts, hence -L.
cp -rL "$mathjax/MathJax.js" "$mathjax/extensions" build/docs/html/mathjax
mkdir -p build/docs/html/mathjax/jax/output build/docs/html/mathjax/jax/input build/docs/html/mathjax/fonts/HTML-CSS/TeX
cp -rL "$mathjax/jax/element" build/docs/html/mathjax/jax
cp -rL "$mathjax/jax/input/TeX" build/docs/html/mathjax/jax/input
cp -rL "$mathjax/jax/output/HTML-CSS" build/docs/html/mathjax/jax/output
cp -rL "$mathjax/fonts/HTML-CSS/TeX/woff" "$mathjax/fonts/HTML-CSS/TeX/otf" build/docs/html/mathjax/fonts/HTML-CSS/TeX
echo "build/docs/html/index.html: $(find build/docs/html -maxdepth 1 -name '*.html' | wc -l) pages"
