#include "sim/photometry/polar_plot.h"

#include <catch2/catch.hpp>

using namespace keystead;

TEST_CASE("A polar diagram reaches its outer ring at the peak, straight down", "[photometry]") {
    Distribution d;
    d.name = "<spot> & more";
    d.vertical_deg = {0.0, 90.0};
    d.horizontal_deg = {0.0};
    d.candela = {1000.0, 0.0};
    const std::string svg = polar_plot_svg(d);
    // The middle is at 260, the outer ring 200 out; both sections pass the beam's axis.
    CHECK(svg.find("L260 460") != std::string::npos);
    CHECK(svg.find("r=\"200\"") != std::string::npos);
    CHECK(svg.find(">1000<") != std::string::npos);
    // A name from a file cannot become markup.
    CHECK(svg.find("<spot>") == std::string::npos);
    CHECK(svg.rfind("</svg>") != std::string::npos);
}

TEST_CASE("A dark file has a diagram, too", "[photometry]") {
    Distribution d;
    d.vertical_deg = {0.0};
    d.horizontal_deg = {0.0};
    d.candela = {0.0};
    CHECK(polar_plot_svg(d).find("nan") == std::string::npos);
}
