// The skin scale against the published survey's band means and luminances
// (tests/data/skin_bands.csv and rows of checks.csv).
#include "sim/set/values.h"
#include "sim/subject/skin_scale.h"
#include "support/helpers/checks.h"

#include <fstream>
#include <sstream>

using namespace keystead;

namespace {

std::vector<SkinRow> published() {
    std::ifstream file(KEYSTEAD_TEST_DATA "/skin_bands.csv");
    std::vector<SkinRow> rows;
    std::string line, who, field;
    std::getline(file, line);
    while (std::getline(file, line)) {
        std::stringstream fields(line);
        std::getline(fields, who, ',');
        SkinRow row;
        for (double* value : {&row.luminance, &row.bands.r, &row.bands.g, &row.bands.b}) {
            std::getline(fields, field, ',');
            *value = std::stod(field);
        }
        rows.push_back(row);
    }
    return rows;
}

double luminous(const Vec3& rgb) {
    return Reflectance{rgb}.luminous();
}

} // namespace

TEST_CASE("Red, green and blue bands taken for linear sRGB have the luminance of the spectra",
          "[subject][skin]") {
    // The survey's luminances come from whole spectra, ours from three bands of the same people.
    CHECK_ROW(224, luminous(skin_survey()[0].bands));
    CHECK_ROW(225, luminous(skin_survey()[1].bands));
    CHECK_ROW(227, luminous(skin_survey()[2].bands));
    CHECK_ROW(230, luminous(skin_survey()[3].bands));
}

TEST_CASE("At the survey's percentiles the scale gives the survey's bands", "[subject][skin]") {
    const std::vector<SkinRow> rows = published();
    REQUIRE(rows.size() == 4);
    for (const SkinRow& row : rows) {
        const Vec3 skin = skin_of_luminance(row.luminance);
        for (int c = 0; c < 3; ++c) CHECK(skin[c] == Approx(row.bands[c]).epsilon(0.02));
    }
}

TEST_CASE("Skin of a luminance has that luminance, and every channel grows with it",
          "[subject][skin]") {
    Vec3 last(0.0);
    for (double y = 0.05; y < 0.4701; y += 0.002) {
        const Vec3 skin = skin_of_luminance(y);
        INFO("Y " << y << ": " << skin.r << ", " << skin.g << ", " << skin.b);
        CHECK(luminous(skin) == Approx(y).epsilon(1e-9));
        for (int c = 0; c < 3; ++c) CHECK(skin[c] > last[c]);
        CHECK(skin.r > skin.g);
        CHECK(skin.g > skin.b);
        CHECK(skin.r < 0.70);
        last = skin;
    }
}

TEST_CASE("The scale is held at its ends and has no step where the survey begins",
          "[subject][skin]") {
    CHECK(skin_of_luminance(-1.0) == skin_of_luminance(least_skin_luminance));
    CHECK(skin_of_luminance(9.0) == skin_of_luminance(most_skin_luminance));
    const double first = skin_survey()[0].luminance;
    const Vec3 below = skin_of_luminance(first - 1e-6), above = skin_of_luminance(first + 1e-6);
    CHECK(glm::length(above - below) < 1e-5);
}

TEST_CASE("Light and dark skin have about the hues of the colour chart's two patches",
          "[subject][skin]") {
    // McCamy, Marcus, Davidson 1976, as published in sRGB: dark skin (115, 82, 68), light skin
    // (194, 150, 130). The light one is held against the survey; the scale is drawn through the
    // dark one, which checks the arithmetic only.
    const Vec3 dark = skin_of_luminance(0.1005), light = skin_of_luminance(0.3582);
    CHECK(dark.r / dark.g == Approx(2.03).epsilon(0.01));
    CHECK(dark.b / dark.g == Approx(0.685).epsilon(0.01));
    CHECK(light.r / light.g == Approx(1.77).epsilon(0.10));
    CHECK(light.b / light.g == Approx(0.732).epsilon(0.12));
}
