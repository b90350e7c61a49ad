#include "sim/import/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace keystead {

namespace {

constexpr std::array<LengthUnit, 5> units{LengthUnit::millimetre, LengthUnit::centimetre,
                                          LengthUnit::metre, LengthUnit::inch, LengthUnit::foot};
constexpr std::array<UpAxis, 3> axes{UpAxis::x, UpAxis::y, UpAxis::z};

/// A kind of mesh: how tall it is (mean and spread of the logarithm, wide enough for children, hair
/// and neck), how wide and deep against its height, and how often people bring one.
struct Kind {
    PersonPart part;
    const char* words;
    double height_m, log_spread, width_ratio, depth_ratio, ratio_spread, frequency;
};

/// Head: vertex to menton 0.228 m, breadth 0.153, length 0.197 (ANSUR II means of women and men
/// together); with some neck, taller. Figure: stature 1.70 m with arms down, and with arms out.
/// Bust: head, neck and shoulders. Spreads and frequencies are our own judgement.
constexpr std::array<Kind, 5> kinds{{
    {PersonPart::head, "a head", 0.228, 0.09, 0.68, 0.86, 0.12, 1.0},
    {PersonPart::head, "a head with its neck", 0.285, 0.09, 0.60, 0.74, 0.12, 0.8},
    {PersonPart::bust, "head and shoulders", 0.46, 0.16, 0.95, 0.58, 0.16, 0.4},
    {PersonPart::figure, "a standing figure", 1.70, 0.09, 0.31, 0.18, 0.07, 1.0},
    {PersonPart::figure, "a figure with arms out", 1.70, 0.09, 1.00, 0.18, 0.12, 0.6},
}};

double bell(double distance, double spread) {
    const double z = distance / spread;
    // Heavy tail: an odd size still ranks by how odd it is.
    return std::exp(-0.5 * z * z) + 1e-3 / (1.0 + z * z);
}

/// Extents as height, and the two horizontal ones; which of those is the width is not known.
struct Extents {
    double height, one, other;
};

Extents extents_of(const Bounds& bounds, UpAxis up) {
    const glm::dvec3 size = glm::max(glm::dvec3(bounds.size()), glm::dvec3(1e-12));
    if (up == UpAxis::x) return {size.x, size.y, size.z};
    if (up == UpAxis::y) return {size.y, size.x, size.z};
    return {size.z, size.x, size.y};
}

double shape_fit(const Extents& e, const Kind& kind) {
    const auto fit = [&](double width, double depth) {
        return bell(width / e.height - kind.width_ratio, kind.ratio_spread) *
               bell(depth / e.height - kind.depth_ratio, kind.ratio_spread);
    };
    return std::max(fit(e.one, e.other), fit(e.other, e.one));
}

double axis_habit(UpAxis up, MeshFormat format) {
    if (up == UpAxis::x) return 0.003;
    if (up == UpAxis::y) return 1.0;
    return format == MeshFormat::gltf ? 0.15 : 0.5;
}

double unit_habit(LengthUnit unit, MeshFormat format) {
    if (unit == LengthUnit::metre) return format == MeshFormat::gltf ? 3.0 : 1.0;
    if (unit == LengthUnit::foot) return 0.3;
    return unit == LengthUnit::inch ? 0.6 : 1.0;
}

const char* axis_name(UpAxis up) {
    return up == UpAxis::x ? "X" : up == UpAxis::y ? "Y" : "Z";
}

std::string reason_of(const UnitOffer& offer, const Kind& kind, double height) {
    std::array<char, 160> text{};
    std::snprintf(text.data(), text.size(),
                  "Read in %s with %s up, its height of %.4g is %.3f m: %s %s (%.2f m is usual).",
                  short_name(offer.unit), axis_name(offer.up), height, offer.height_m,
                  std::abs(std::log(offer.height_m / kind.height_m)) < 2.5 * kind.log_spread
                      ? "the size of"
                      : "not the size of",
                  kind.words, kind.height_m);
    return text.data();
}

/// The best kind for one unit and axis; weights are not yet shares.
UnitOffer offer_for(const Bounds& bounds, LengthUnit unit, UpAxis up, MeshFormat format) {
    const Extents e = extents_of(bounds, up);
    UnitOffer best;
    const Kind* chosen = nullptr;
    for (const Kind& kind : kinds) {
        const double height_m = e.height * metres_in(unit);
        const double weight = kind.frequency * axis_habit(up, format) * unit_habit(unit, format) *
                              bell(std::log(height_m / kind.height_m), kind.log_spread) *
                              shape_fit(e, kind);
        if (chosen != nullptr && weight <= best.weight) continue;
        best = {unit, up, kind.part, height_m, weight, ""};
        chosen = &kind;
    }
    best.reason = reason_of(best, *chosen, e.height);
    return best;
}

} // namespace

double metres_in(LengthUnit unit) {
    switch (unit) {
    case LengthUnit::millimetre:
        return 1e-3;
    case LengthUnit::centimetre:
        return 1e-2;
    case LengthUnit::inch:
        return 0.0254;
    case LengthUnit::foot:
        return 0.3048;
    case LengthUnit::metre:
        break;
    }
    return 1.0;
}

const char* short_name(LengthUnit unit) {
    switch (unit) {
    case LengthUnit::millimetre:
        return "mm";
    case LengthUnit::centimetre:
        return "cm";
    case LengthUnit::inch:
        return "in";
    case LengthUnit::foot:
        return "ft";
    case LengthUnit::metre:
        break;
    }
    return "m";
}

UnitGuess guess_units(const Bounds& bounds, MeshFormat format) {
    UnitGuess guess;
    double total = 0.0;
    for (const LengthUnit unit : units)
        for (const UpAxis up : axes) {
            guess.offers.push_back(offer_for(bounds, unit, up, format));
            total += guess.offers.back().weight;
        }
    std::stable_sort(guess.offers.begin(), guess.offers.end(),
                     [](const UnitOffer& a, const UnitOffer& b) { return a.weight > b.weight; });
    for (UnitOffer& offer : guess.offers) offer.weight = total > 0.0 ? offer.weight / total : 0.0;
    // A tenth of a perfect fit: below that the size fits nobody, however far ahead of the rest.
    guess.clear = guess.offers[0].weight > 5.0 * guess.offers[1].weight && total > 0.02;
    return guess;
}

Mesh convert(Mesh mesh, LengthUnit unit, UpAxis up) {
    const auto scale = static_cast<float>(metres_in(unit));
    glm::mat3 turn(1.0F); // columns: where x, y, z of the file go
    if (up == UpAxis::z) turn = {{1, 0, 0}, {0, 0, -1}, {0, 1, 0}};
    if (up == UpAxis::x) turn = {{0, 1, 0}, {-1, 0, 0}, {0, 0, 1}};
    for (glm::vec3& p : mesh.positions_m) p *= scale;
    return transformed(std::move(mesh), turn, glm::vec3(0.0F));
}

} // namespace keystead
