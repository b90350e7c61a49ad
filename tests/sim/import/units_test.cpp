// Which unit, which axis: sizes people bring, retold from public questions, and mean sizes of
// people (ANSUR II, 2012: head height 0.228 m, breadth 0.153, length 0.197; a stature of 1.74 m).
#include "sim/import/units.h"
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace keystead;
using namespace keystead::mesh_files;

namespace {

Bounds box(double x, double y, double z) {
    return {glm::vec3(0.0F), glm::vec3(glm::dvec3(x, y, z))};
}
/// A head `height` units tall, Y up.
Bounds head(double height) {
    return box(height * 0.153 / 0.228, height, height * 0.197 / 0.228);
}
/// A figure with arms down.
Bounds figure(double height) {
    return box(height * 0.29, height, height * 0.17);
}

struct Sized {
    double height;
    LengthUnit unit;
};

} // namespace

TEST_CASE("A head of 228, 22.8, 0.228 or 8.98 is offered as mm, cm, m or inch", "[import]") {
    for (const Sized& sized :
         {Sized{228, LengthUnit::millimetre}, Sized{22.8, LengthUnit::centimetre},
          Sized{0.228, LengthUnit::metre}, Sized{8.98, LengthUnit::inch}}) {
        const UnitGuess guess = guess_units(head(sized.height));
        const UnitOffer& best = guess.offers.front();
        INFO(sized.height << ": " << best.reason);
        CHECK(best.unit == sized.unit);
        CHECK(best.up == UpAxis::y);
        CHECK(best.part == PersonPart::head);
        CHECK(best.height_m == Approx(0.228).epsilon(1e-3));
        CHECK(guess.clear);
        CHECK(best.reason.find(short_name(sized.unit)) != std::string::npos);
    }
}

TEST_CASE("A figure of 1.74, 174, 68.5 or 5.71 is offered as m, cm, inch or foot", "[import]") {
    for (const Sized& sized : {Sized{1.74, LengthUnit::metre}, Sized{174, LengthUnit::centimetre},
                               Sized{68.5, LengthUnit::inch}, Sized{5.71, LengthUnit::foot},
                               Sized{1740, LengthUnit::millimetre}}) {
        const UnitGuess guess = guess_units(figure(sized.height));
        const UnitOffer& best = guess.offers.front();
        INFO(sized.height << ": " << best.reason);
        CHECK(best.unit == sized.unit);
        CHECK(best.part == PersonPart::figure);
        CHECK(best.height_m == Approx(1.74).epsilon(1e-3));
    }
    // Arms out: as wide as tall.
    CHECK(guess_units(box(1.74, 1.74, 0.3)).offers.front().unit == LengthUnit::metre);
    CHECK(guess_units(box(174, 174, 30)).offers.front().unit == LengthUnit::centimetre);
}

TEST_CASE("The tallest axis is offered as up, and glTF's own rule weighs in", "[import]") {
    // Z up: breadth x, length y, height z.
    CHECK(guess_units(box(15.3, 19.7, 22.8)).offers.front().up == UpAxis::z);
    CHECK(guess_units(box(0.5, 0.3, 1.74)).offers.front().up == UpAxis::z);
    CHECK(guess_units(box(1.74, 0.3, 1.74), MeshFormat::gltf).offers.front().up != UpAxis::y);
    // As wide as tall and deep, the axis the format prescribes wins.
    CHECK(guess_units(box(0.23, 0.23, 0.23), MeshFormat::gltf).offers.front().up == UpAxis::y);
    // A glTF in centimetres (its rule says metres) is still seen.
    CHECK(guess_units(head(22.8), MeshFormat::gltf).offers.front().unit == LengthUnit::centimetre);
}

TEST_CASE("Offers are shares of one, every unit is among them, and nonsense is not clear",
          "[import]") {
    const UnitGuess guess = guess_units(head(0.228));
    double sum = 0.0;
    for (const UnitOffer& offer : guess.offers) sum += offer.weight;
    CHECK(sum == Approx(1.0));
    CHECK(guess.offers.size() == 15);
    CHECK(std::is_sorted(guess.offers.begin(), guess.offers.end(),
                         [](const auto& a, const auto& b) { return a.weight > b.weight; }));
    CHECK_FALSE(guess_units(box(1e-7, 1e-7, 1e-7)).clear);
    CHECK_FALSE(guess_units(box(1e8, 1e8, 1e8)).clear);
    CHECK_FALSE(guess_units(box(1, 0, 1)).clear);
    CHECK_FALSE(guess_units(Bounds{}).offers.empty());
}

TEST_CASE("Units are the exact ones", "[import]") {
    // International yard and pound agreement, 1959.
    CHECK(metres_in(LengthUnit::inch) == 0.0254);
    CHECK(metres_in(LengthUnit::foot) == 0.3048);
    CHECK(metres_in(LengthUnit::millimetre) == 0.001);
    CHECK(metres_in(LengthUnit::centimetre) == 0.01);
    CHECK(metres_in(LengthUnit::metre) == 1.0);
}

TEST_CASE("Converting turns the mesh and keeps its outside", "[import]") {
    const ImportedMesh imported = loaded(octahedron()); // 2 by 4 by 6
    const auto size_of = [](const Mesh& mesh) {
        glm::vec3 low(1e9F), high(-1e9F);
        for (const glm::vec3& p : mesh.positions_m) {
            low = glm::min(low, p);
            high = glm::max(high, p);
        }
        return high - low;
    };
    for (const UpAxis up : {UpAxis::x, UpAxis::y, UpAxis::z}) {
        const Mesh mesh = convert(imported.mesh, LengthUnit::centimetre, up);
        const float tall = up == UpAxis::x ? 0.02F : up == UpAxis::y ? 0.04F : 0.06F;
        CHECK(size_of(mesh).y == Approx(tall));
        CHECK(volume_of(mesh) == Approx(octahedron_volume * 1e-6).epsilon(1e-4));
        for (std::size_t i = 0; i < mesh.positions_m.size(); ++i)
            CHECK(glm::dot(mesh.positions_m[i], mesh.normals[i]) > 0.0F);
    }
    // Z up: what faced -Y faces the camera.
    Mesh nose;
    nose.positions_m = {{0, -1, 0}};
    CHECK(convert(nose, LengthUnit::metre, UpAxis::z).positions_m[0] == glm::vec3(0, 0, 1));
}
