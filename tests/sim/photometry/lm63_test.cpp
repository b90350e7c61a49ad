// LM-63 files written here in every variant that the format's public descriptions and loaders'
// bug reports tell of; flux is judged by the handbooks' zonal sum and by closed forms.
#include "sim/photometry/photometric_file.h"
#include "support/helpers/checks.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numbers>
#include <sstream>

using namespace keystead;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

struct Written {
    std::string header = "IESNA:LM-63-2002\n[TEST] ours\n[LUMINAIRE] a cosine\n[MORE] lamp\n";
    std::string tilt = "TILT=NONE\n";
    std::string lumens = "-1";
    double multiplier = 1.0, ballast = 1.0, third = 1.0;
    int type = 1, units = 2;
    std::string opening = "0 0 0";
    double v_first = 0.0, v_last = 180.0, v_step = 5.0;
    double h_first = 0.0, h_last = 0.0, h_step = 1.0;
    std::string separator = " ", line_end = "\n", after;
    std::function<double(double v, double h)> candela = [](double, double) { return 100.0; };
};

std::vector<double> steps(double first, double last, double step) {
    std::vector<double> values;
    const long count = std::lround((last - first) / step);
    for (long i = 0; i <= count; ++i) values.push_back(first + static_cast<double>(i) * step);
    return values;
}

std::string text_of(const Written& w) {
    const auto vs = steps(w.v_first, w.v_last, w.v_step), hs = steps(w.h_first, w.h_last, w.h_step);
    std::ostringstream out;
    out.precision(10);
    out << w.header << w.tilt << "1 " << w.lumens << ' ' << w.multiplier << ' ' << vs.size() << ' '
        << hs.size() << ' ' << w.type << ' ' << w.units << ' ' << w.opening << '\n'
        << w.ballast << ' ' << w.third << " 60\n";
    int column = 0;
    const auto put = [&](double value) {
        out << value << (++column % 7 == 0 ? "\n" : w.separator);
    };
    for (const double v : vs) put(v);
    for (const double h : hs) put(h);
    for (const double h : hs)
        for (const double v : vs) put(w.candela(v, h));
    out << w.after;
    std::string text = out.str();
    if (w.line_end == "\n") return text;
    std::string ended;
    for (const char c : text) ended += c == '\n' ? w.line_end : std::string(1, c);
    return ended;
}

Distribution read(const Written& w) {
    auto parsed = parse_photometric(text_of(w), "ours.ies");
    INFO((parsed.ok() ? std::string() : parsed.problem().message()));
    REQUIRE(parsed.ok());
    return std::move(parsed).value();
}

std::string refusal(const std::string& text) {
    const auto parsed = parse_photometric(text, "bad.ies");
    REQUIRE_FALSE(parsed.ok());
    const std::string message = parsed.problem().message();
    CHECK(message.find('\n') == std::string::npos);
    CHECK(message.starts_with("bad.ies"));
    return message;
}

Written cosine(double step) {
    Written w;
    w.v_last = 90.0;
    w.v_step = step;
    w.candela = [](double v, double) { return 1000.0 * std::cos(v * degree); };
    return w;
}

/// The middle of the beam is 1000, one side of it is darker: no symmetry at all.
double lopsided(double v, double h) {
    return 500.0 + 300.0 * std::cos(v * degree) + 100.0 * std::cos((h - 30.0) * degree);
}

} // namespace

TEST_CASE("Flux of an isotropic and of a cosine file", "[photometry]") {
    CHECK_ROW(231, lumens_of(read({})));
    CHECK_ROW(232, lumens_of(read(cosine(0.1))));
    CHECK_ROW(233, zonal_lumens(read(cosine(5.0)), 10.0));
}

TEST_CASE("Values between the angles of a file are bilinear", "[photometry]") {
    Written w;
    w.v_last = 90.0;
    w.h_last = 90.0;
    w.h_step = 45.0;
    w.candela = [](double v, double h) {
        if (v == 10.0) return h == 0.0 ? 800.0 : 600.0;
        if (v == 15.0) return h == 0.0 ? 700.0 : 540.0;
        return 0.0;
    };
    const Distribution d = read(w);
    CHECK_ROW(234, candela_at(d, 12.5, 30.0));
    CHECK(candela_at(d, 90.1, 30.0) == 0.0); // never extrapolated
}

TEST_CASE("Candela are multiplied by every factor once", "[photometry]") {
    Written w;
    w.header = "IESNA:LM-63-1995\n";
    w.multiplier = 1.2;
    w.ballast = 0.95;
    w.candela = [](double, double) { return 1000.0; };
    CHECK_ROW(235, candela_at(read(w), 0.0, 0.0));
    w.third = 0.5; // counts up to 1995, is something else afterwards
    CHECK(candela_at(read(w), 0.0, 0.0) == Approx(570.0));
    w.header = "IES:LM-63-2019\n";
    CHECK(candela_at(read(w), 0.0, 0.0) == Approx(1140.0));
}

TEST_CASE("A quarter and a half of the planes make a whole turn", "[photometry]") {
    Written quarter;
    quarter.h_last = 90.0;
    quarter.h_step = 22.5;
    quarter.candela = [](double, double h) { return h; };
    const Distribution folded = read(quarter);
    CHECK_ROW(236, static_cast<double>(folded.horizontal_deg.size()));
    CHECK_ROW(238, candela_at(folded, 45.0, 250.0));

    Written half = quarter;
    half.h_last = 180.0;
    CHECK_ROW(237, candela_at(read(half), 45.0, 300.0));

    // 90 to 270, about the other plane: the same at 180 - H.
    Written side = quarter;
    side.h_first = 90.0;
    side.h_last = 270.0;
    const Distribution about = read(side);
    CHECK(about.horizontal_deg.front() == 0.0);
    CHECK(about.horizontal_deg.back() == 360.0);
    CHECK(candela_at(about, 10.0, 45.0) == Approx(135.0));
    CHECK(candela_at(about, 10.0, 315.0) == Approx(225.0));
    CHECK(candela_at(about, 10.0, 0.0) == Approx(180.0));
    CHECK(candela_at(about, 10.0, 225.0) == Approx(225.0));
}

TEST_CASE("The same light in every legal writing gives the same flux", "[photometry]") {
    Written plain;
    plain.h_last = 360.0;
    plain.h_step = 15.0;
    plain.candela = lopsided;
    const double flux = lumens_of(read(plain));
    // 500 · 4 pi + 300 · 0 + 100 · 0 over the whole sphere.
    CHECK(flux == Approx(2000.0 * std::numbers::pi).epsilon(1e-6));

    const auto same = [&](const char* what, const std::function<void(Written&)>& change) {
        Written w = plain;
        change(w);
        INFO(what);
        CHECK(lumens_of(read(w)) == Approx(flux).epsilon(1e-9));
    };
    same("1986: no header", [](Written& w) { w.header = "somebody's lamp\n"; });
    same("1991", [](Written& w) { w.header = "IESNA91\n[TEST] x\n"; });
    same("1995", [](Written& w) { w.header = "IESNA:LM-63-1995\n"; });
    same("a stray blank in the header", [](Written& w) { w.header = "IESNA: LM-63-2002\n"; });
    same("2019", [](Written& w) { w.header = "IES:LM-63-2019\n"; });
    same("byte order mark", [](Written& w) { w.header = "\xEF\xBB\xBF" + w.header; });
    same("Latin-1 label", [](Written& w) { w.header += "[OTHER] L\xE4mpchen\n"; });
    same("CRLF", [](Written& w) { w.line_end = "\r\n"; });
    same("CR only", [](Written& w) { w.line_end = "\r"; });
    same("commas", [](Written& w) { w.separator = ", "; });
    same("tabs", [](Written& w) { w.separator = "\t"; });
    same("blanks round the equals sign", [](Written& w) { w.tilt = "Tilt = None \n"; });
    same("tilt table", [](Written& w) { w.tilt = "TILT=INCLUDE\n1\n3\n0 45 90\n1 0.9\n 0.8\n"; });
    same("lumens given", [](Written& w) { w.lumens = "3200.0"; });
    same("feet and a round opening", [](Written& w) {
        w.units = 1;
        w.opening = "-1 -1 0";
    });
    same("the plane at 360 missing", [](Written& w) { w.h_last = 345.0; });
    same("Ctrl-Z and rubbish at the end", [](Written& w) { w.after = "\n\x1A 1 2 x\n"; });
    same("words after the last value", [](Written& w) { w.after = "\n7 8 9\n"; });
}

TEST_CASE("A tilt table in a file beside it is read, one elsewhere is not", "[photometry]") {
    Written w;
    w.tilt = "TILT=lamp.tlt\n";
    const auto beside = [](const std::string& name) -> Result<std::string> {
        if (name != "lamp.tlt") return Problem{name, "", "no such file"};
        return std::string("1\n2\n0 90\n0.5 1\n");
    };
    const auto parsed = parse_lm63(text_of(w), "ours.ies", beside);
    REQUIRE(parsed.ok());
    CHECK(candela_at(parsed.value(), 0.0, 0.0) == Approx(50.0));
    CHECK_FALSE(parse_lm63(text_of(w), "ours.ies").ok());
}

TEST_CASE("Sizes, name and flux of an LM-63 file", "[photometry]") {
    Written w;
    w.units = 1;
    w.opening = "-2 -2 0";
    w.lumens = "1600";
    const Distribution d = read(w);
    CHECK(d.round);
    CHECK(d.width_m == Approx(0.6096)); // two feet
    CHECK(d.name == "a cosine lamp");
    CHECK(d.stated_lumens.value_or(0) == Approx(1600.0));
    CHECK(d.watts == Approx(60.0));
}

TEST_CASE("Type B and type A grids look where their definitions say", "[photometry]") {
    // A narrow ridge along H in type B lies in a plane through the x axis; from memory of LM-75.
    Written w;
    w.type = 2;
    w.v_first = -90.0;
    w.v_last = 90.0;
    w.h_first = -90.0;
    w.h_last = 90.0;
    w.v_step = w.h_step = 5.0;
    w.candela = [](double v, double h) { return v == 30.0 && h == 20.0 ? 1000.0 : 0.0; };
    const double v = 30.0 * degree, h = 20.0 * degree;
    const Vec3 toward_b(std::sin(h), std::cos(h) * std::sin(v), std::cos(h) * std::cos(v));
    const Vec3 toward_a(std::cos(v) * std::sin(h), std::sin(v), std::cos(v) * std::cos(h));
    CHECK(candela_toward(read(w), toward_b) == Approx(1000.0));
    w.type = 3;
    CHECK(candela_toward(read(w), toward_a) == Approx(1000.0));
    CHECK(candela_toward(read(w), toward_b) < 900.0);

    // An even front hemisphere has 2 pi I either way; quarters are mirrored.
    w.candela = [](double, double) { return 100.0; };
    w.v_first = w.h_first = 0.0;
    for (const int type : {2, 3}) {
        w.type = type;
        CHECK(lumens_of(read(w)) == Approx(200.0 * std::numbers::pi).epsilon(1e-4));
    }
}

TEST_CASE("Damaged LM-63 files are refused with file, line and what was expected", "[photometry]") {
    Written w;
    const std::string good = text_of(w);
    const auto with = [&](const std::string& from, const std::string& to) {
        std::string text = good;
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        return text.replace(at, from.size(), to);
    };
    CHECK(refusal("IESNA:LM-63-2002\n1 2 3\n").find("TILT=") != std::string::npos);
    CHECK(refusal(good.substr(0, good.size() - 40)).find("the file ends where candela value") !=
          std::string::npos);
    CHECK(refusal(with(" 37 1 1 2", " 36 1 1 2")).find("bad.ies") == 0);
    CHECK(refusal(with("100 100", "100 nan")).find("is not a number") != std::string::npos);
    CHECK(refusal(with("100 100", "100 inf")).find("is not a number") != std::string::npos);
    CHECK(refusal(with("100 100", "100 0x10")).find("is not a number") != std::string::npos);
    CHECK(refusal(with("100 100", "100 -3")).find("negative") != std::string::npos);
    CHECK(refusal(with("0 5 10", "0 10 5")).find("must rise") != std::string::npos);
    CHECK(refusal(with("0 5 10", "0 5 5")).find("must rise") != std::string::npos);
    CHECK(refusal(with(" 37 1 1 2", " 37 1 4 2")).find("photometric type") != std::string::npos);
    CHECK(refusal(with(" 37 1 1 2", " 37 1 1 7")).find("unit") != std::string::npos);
    CHECK(refusal(with(" 37 1 1 2", " 2000000000 1 1 2")).find("vertical angles") !=
          std::string::npos);
    CHECK(refusal(with("1 -1 1 37", "1 -1 0 37")).find("no light") != std::string::npos);
    CHECK(refusal(with("TILT=NONE", "TILT=../../etc/passwd")).find("line 5") != std::string::npos);
    CHECK(refusal("IESNA91\nTILT=INCLUDE\n9\n").find("lamp geometry") != std::string::npos);
    CHECK(refusal(std::string("IESNA91\n\0\0", 10)).find("binary") != std::string::npos);
    CHECK(refusal("\xFF\xFEI\n").find("UTF-16") != std::string::npos);
    Written odd;
    odd.h_last = 120.0;
    odd.h_step = 30.0;
    CHECK(refusal(text_of(odd)).find("0 to 180") != std::string::npos);
}
