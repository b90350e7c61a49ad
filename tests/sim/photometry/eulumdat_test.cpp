// EULUMDAT files written here; the format after several public descriptions and parsers.
#include "sim/photometry/photometric_file.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numbers>
#include <sstream>

using namespace keystead;

namespace {

struct Written {
    int symmetry = 0, planes = 24, gammas = 19;
    std::string factor = "1", lamp_count = "1", flux = "3000";
    bool two_sets = false, by_field = false;
    bool decimal_comma = false;
    std::function<double(double gamma, double c)> per_1000 = [](double, double) { return 250.0; };
};

std::string text_of(const Written& w) {
    std::ostringstream out;
    const double c_step = 360.0 / w.planes, g_step = 180.0 / (w.gammas - 1);
    out << "ours\n1\n"
        << w.symmetry << '\n'
        << w.planes << '\n'
        << c_step << '\n'
        << w.gammas << '\n'
        << g_step << "\nreport\nL\xFCster\nnumber\nfile\ntoday\n600\n0\n80\n500\n0\n0\n0\n0\n0\n"
        << "100\n80\n"
        << w.factor << "\n0\n";
    if (w.two_sets && w.by_field)
        out << "2\n1\n1\nlamp\nlamp\n"
            << w.flux << '\n'
            << w.flux << "\n3000K\n3000K\n80\n80\n30\n30\n";
    else
        for (int i = 0; i < (w.two_sets ? 2 : 1); ++i)
            out << (i == 0 ? (w.two_sets ? "2\n" : "1\n") : "") << w.lamp_count << "\nlamp\n"
                << w.flux << "\n3000K\n80\n30\n";
    for (int i = 0; i < 10; ++i) out << "0.5\n";
    for (int i = 0; i < w.planes; ++i) out << i * c_step << '\n';
    for (int i = 0; i < w.gammas; ++i) out << i * g_step << '\n';
    const int stored = eulumdat_stored_planes(w.symmetry, w.planes);
    const int first = w.symmetry == 3 ? 3 * w.planes / 4 : 0;
    for (int i = 0; i < stored; ++i)
        for (int k = 0; k < w.gammas; ++k)
            out << w.per_1000(k * g_step, (first + i) % w.planes * c_step) << '\n';
    std::string text = out.str();
    if (w.decimal_comma)
        for (char& c : text)
            if (c == '.') c = ',';
    return text;
}

Distribution read(const Written& w) {
    auto parsed = parse_photometric(text_of(w), "ours.ldt");
    INFO((parsed.ok() ? std::string() : parsed.problem().message()));
    REQUIRE(parsed.ok());
    return std::move(parsed).value();
}

std::string refusal(const std::string& text) {
    const auto parsed = parse_photometric(text, "bad.ldt");
    REQUIRE_FALSE(parsed.ok());
    return parsed.problem().message();
}

} // namespace

TEST_CASE("EULUMDAT intensities scale with the flux", "[photometry]") {
    CHECK_ROW(239, candela_at(read({}), 30.0, 10.0));
    Written w;
    w.two_sets = true;
    CHECK(candela_at(read(w), 30.0, 10.0) == Approx(1500.0));
    w.by_field = true;
    CHECK(candela_at(read(w), 30.0, 10.0) == Approx(1500.0));
    Written absolute;
    absolute.lamp_count = "-1";
    CHECK(candela_at(read(absolute), 30.0, 10.0) == Approx(750.0));
    Written comma;
    comma.decimal_comma = true;
    comma.factor = "0.5";
    CHECK(candela_at(read(comma), 30.0, 10.0) == Approx(375.0));
}

TEST_CASE("An EULUMDAT symmetry stores only some of the planes", "[photometry]") {
    CHECK_ROW(240, eulumdat_stored_planes(0, 24));
    CHECK_ROW(241, eulumdat_stored_planes(1, 24));
    CHECK_ROW(242, eulumdat_stored_planes(2, 24));
    CHECK_ROW(243, eulumdat_stored_planes(3, 24));
    CHECK_ROW(244, eulumdat_stored_planes(4, 24));
}

TEST_CASE("Every symmetry unfolds to the light it was folded from", "[photometry]") {
    constexpr double degree = std::numbers::pi / 180.0;
    // Each has exactly the symmetry it is stored with; H is C turned by a quarter.
    const std::vector<std::function<double(double, double)>> lights{
        [](double, double c) { return 200.0 + 50.0 * std::cos((c - 30.0) * degree); },
        [](double g, double) { return 200.0 + 50.0 * std::cos(g * degree); },
        [](double, double c) { return 200.0 + 50.0 * std::cos(c * degree); },
        [](double, double c) { return 200.0 + 50.0 * std::sin(c * degree); },
        [](double, double c) { return 200.0 + 50.0 * std::cos(2.0 * c * degree); }};
    for (int symmetry = 0; symmetry <= 4; ++symmetry) {
        Written w;
        w.symmetry = symmetry;
        w.per_1000 = lights[static_cast<std::size_t>(symmetry)];
        const Distribution d = read(w);
        for (int c = 0; c < 360; c += 15) {
            INFO("symmetry " << symmetry << " C " << c);
            CHECK(candela_at(d, 60.0, c + 90.0) == Approx(3.0 * w.per_1000(60.0, c)));
        }
        CHECK(lumens_of(d) == Approx(zonal_lumens(d, 2.0)).epsilon(1e-3));
    }
}

TEST_CASE("A round opening, the name and the flux of an EULUMDAT file", "[photometry]") {
    const Distribution d = read({});
    CHECK(d.round);
    CHECK(d.width_m == Approx(0.5));
    CHECK(d.stated_lumens.value_or(0) == Approx(3000.0));
    // 250 cd for each 1000 lm all round is 4 pi · 0.25 of the flux.
    CHECK(lumens_of(d) == Approx(3000.0 * std::numbers::pi).epsilon(1e-9));
}

TEST_CASE("Damaged EULUMDAT files are refused with file, line and what was expected",
          "[photometry]") {
    const std::string good = text_of({});
    CHECK(refusal(good.substr(0, good.size() - 30)).find("where intensity") != std::string::npos);
    CHECK(refusal("words\nonly\n").find("line 2") != std::string::npos);
    Written w;
    w.flux = "0";
    CHECK(refusal(text_of(w)).find("1000 lm") != std::string::npos);
    w = {};
    w.flux = "bright";
    CHECK(refusal(text_of(w)).find("flux") != std::string::npos);
    w = {};
    w.symmetry = 4;
    w.planes = 22;
    CHECK(refusal(text_of(w)).find("symmetry 4") != std::string::npos);
    w = {};
    w.per_1000 = [](double g, double) { return 10.0 - g; };
    CHECK(refusal(text_of(w)).find("negative") != std::string::npos);
    std::string symmetry = good;
    symmetry.replace(symmetry.find("\n1\n0\n"), 5, "\n1\n7\n");
    CHECK(refusal(symmetry).find("line 3") != std::string::npos);
}
