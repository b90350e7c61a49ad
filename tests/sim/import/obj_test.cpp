// OBJ, in order and not. What is legal: "Object files (.obj)", format description version 3.0. What
// breaks loaders: public issue threads, retold (trimesh 2556, obj2gltf 184, tinyobjloader 140,
// nifskope 41). Colours behind a vertex, and decimal commas: common practice.
#include "support/helpers/mesh_files.h"

#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <sstream>

using namespace keystead;
using namespace keystead::mesh_files;
using Catch::Contains;

namespace {

/// A tetrahedron with corner at the origin and legs along the axes; volume 1/6.
const std::string corners = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\n";
const std::string faces = "f 1 3 2\nf 1 2 4\nf 1 4 3\nf 2 3 4\n";

std::string refused(const std::string& text) {
    const Folder folder;
    return refusal(folder.write("scan.obj", text));
}

void check_tetrahedron(const std::string& text) {
    INFO(text.substr(0, 200));
    const ImportedMesh imported = loaded_obj(text);
    CHECK(imported.format == MeshFormat::obj);
    CHECK(imported.mesh.triangles.size() == 4);
    CHECK(volume_of(imported.mesh) == Approx(1.0 / 6.0));
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
        text.replace(at, from.size(), to);
    return text;
}

} // namespace

TEST_CASE("Every way to write one tetrahedron gives that tetrahedron", "[import]") {
    check_tetrahedron(corners + faces);
    check_tetrahedron("\xEF\xBB\xBF# with a mark\n" + corners + faces);
    check_tetrahedron(replaced(corners + faces, "\n", "\r\n"));
    check_tetrahedron(replaced(corners + faces, "\n", "\r"));
    check_tetrahedron(replaced(corners + faces, " ", "\t \t"));
    check_tetrahedron(replaced(corners + faces, "f ", "  f "));
    check_tetrahedron(replaced(corners + faces, "\n", " # a remark\n"));
    check_tetrahedron(replaced(corners + faces, "f 1", "f \\\n1"));
    check_tetrahedron(replaced(corners + faces, "f 1", "f \\\r\n 1"));
    check_tetrahedron(corners + "f 1 3 2\nf 1 2 4\nf 1 4 3\nf 2 3 4"); // no line end at the end
    check_tetrahedron(corners + faces + "\\");
    check_tetrahedron(faces + corners); // named before they are listed
    check_tetrahedron(replaced(corners, "1", "+1.0e0") + faces);
    check_tetrahedron(replaced(replaced(corners, " 1", " .1E+1"), " 0", " 1e-400") + faces);
    check_tetrahedron(replaced(replaced(corners, "0 ", "0,0 "), "1", "1,000") + faces);
    check_tetrahedron(corners + replaced(faces, "f ", "fo ")); // the older word for a face
    check_tetrahedron("mtllib no such file.mtl\nusemtl a b\no x\ng a b\ns off\n" + corners + faces);
    check_tetrahedron(replaced(corners, "v 1 0 0", "v 1 0 0 1.0") + faces); // with a weight
}

TEST_CASE("Negative references count from the line they stand on", "[import]") {
    // Two triangles, each right behind its own corners.
    const ImportedMesh imported = loaded_obj("v 0 0 0\nv 1 0 0\nv 0 1 0\nf -3 -2 -1\n"
                                             "v 0 0 5\nv 2 0 5\nv 0 2 5\nf -3 -2 -1\n");
    REQUIRE(imported.mesh.triangles.size() == 2);
    CHECK(imported.mesh.triangles[0] == glm::uvec3(0, 1, 2));
    CHECK(imported.mesh.triangles[1] == glm::uvec3(3, 4, 5));
    check_tetrahedron(corners + "f -4 -2 -3\nf -4 -3 -1\nf -4 -1 -2\nf -3 -2 -1\n");
    CHECK_THAT(refused(corners + "f -5 -2 -1\n"),
               Contains("line 5: vertex index -5 points beyond the 4 listed"));
}

TEST_CASE("Spoiled OBJ files are refused with the line", "[import]") {
    const std::vector<std::pair<std::string, const char*>> files{
        {corners + "f 0 1 2\n", "line 5: vertex index 0; OBJ counts from 1"},
        {corners + "f 1 2 5\n", "line 5: vertex index 5 points beyond the 4 listed"},
        {corners + "f 1 2 99999999999999999999\n",
         "line 5: \"99999999999999999999\" is not an index"},
        {corners + "f 1 2 4294967297\n", "line 5: vertex index 4294967297"},
        {corners + "f 1 2 -9223372036854775808\n", "line 5"},
        {corners + "f 1//1 2//1 3//1\n", "line 5: normal index 1 points beyond the 0 listed"},
        {corners + "vn 0 0 1\nf 1//0 2//1 3//1\n", "line 6: normal index 0"},
        {corners + "f 1 2 three\n", "line 5: \"three\" is not an index"},
        {corners + "f 1 2 /3\n", "line 5: \"\" is not an index"},
        {corners + "f 1.0 2.0 3.0\n", "line 5: \"1.0\" is not an index"},
        {"v 1 2\n" + faces, "line 1: a vertex with 2 numbers"},
        {"v 1 2 x\n" + faces, "line 1: \"x\" is not a usable number"},
        {"v 1 2 nan\n" + faces, "line 1: \"nan\""},
        {"v 1 2 inf\n" + faces, "line 1: \"inf\""},
        {"v 1 2 1e999\n" + faces, "line 1: \"1e999\""},
        {"v 1 2 1e30\n" + faces, "line 1: the vertex is not a usable position"},
        {"v 1,2,3 4 5\n" + faces, "line 1: \"1,2,3\""},
        {"v 1.000,5 4 5\n" + faces, "line 1: \"1.000,5\""},
        {"v 0x1 2 3\n" + faces, "line 1: \"0x1\""},
        {"vn 1 0\n" + corners + faces, "line 1: a normal with 2 numbers"},
        {corners, "4 vertices but no faces"},
        {"# nothing\n", "no vertices and no faces"},
        {"\n", "no vertices and no faces"},
        {corners + "f 1 2\nl 1 2 3\np 1\n", "no faces"},
        {"cstype bezier\nsurf 0 1 0 1 1 2 3 4\n" + corners, "free-form surfaces but no faces"},
        {"v 1 1 1\nv 1 1 1\nv 1 1 1\nf 1 2 3\n", "one place"},
        {corners + "f 1 1 2\n", "shows no triangles"},
        {std::string("v 1 2 3\0 4", 10), "not text"},
        {"\xFF\xFE" + std::string("v\0 \0", 4), "not text"},
        {std::string(17U << 20U, 'v'), "line 1: it is longer"},
        {replaced(std::string(400, 'x'), "x", std::string(50'000, ' ') + "\\\n"),
         "line 1: it is longer"},
        {"just a letter\nto nobody\n", "no vertices and no faces"}};
    for (const auto& [text, words] : files) {
        INFO(text.substr(0, 120));
        CHECK_THAT(refused(text), Contains(words));
    }
    // The line of a joined line is the one it began on.
    CHECK_THAT(refused(corners + "f 1 \\\n2 \\\n9\n"), Contains("line 5: vertex index 9"));
    // What is quoted from the file cannot break the line or the terminal.
    CHECK_THAT(refused("v 1 2 \x1B[31m\xFF\xC2\x85" + std::string(500, 'y') + "\n"),
               Contains("\"?[31m??yyy") && Contains("...\""));
}

TEST_CASE("Limits on vertices and triangles are told with the line", "[import]") {
    const Folder folder;
    ImportLimits limits;
    limits.max_vertices = 3;
    CHECK_THAT(refusal(folder.write("scan.obj", corners + faces), limits),
               Contains("line 4: more than 3 vertices"));
    limits = {};
    limits.max_triangles = 3;
    CHECK_THAT(refusal(folder.write("scan.obj", corners + faces), limits),
               Contains("line 8: more than 3 triangles"));
    CHECK_THAT(refusal(folder.write("scan.obj", corners + "f 1 2 3 4 1 2\n"), limits),
               Contains("line 5: more than 3 triangles"));
}

TEST_CASE("Polygons keep their area, convex or not", "[import]") {
    // An L of six corners, area 3; a fan from its first corner would cover 3.5 with overlap.
    const ImportedMesh ell =
        loaded_obj("v 2 1 0\nv 1 1 0\nv 1 2 0\nv 0 2 0\nv 0 0 0\nv 2 0 0\nf 1 2 3 4 5 6\n");
    REQUIRE(ell.mesh.triangles.size() == 4);
    double area = 0.0;
    for (const glm::uvec3& t : ell.mesh.triangles) {
        const glm::vec3 a = ell.mesh.positions_m[t.x];
        const glm::vec3 n =
            glm::cross(ell.mesh.positions_m[t.y] - a, ell.mesh.positions_m[t.z] - a);
        CHECK(n.z > 0.0F); // none turned over
        area += 0.5 * static_cast<double>(n.z);
    }
    CHECK(area == Approx(3.0));
    // A regular polygon of 300 corners becomes a fan of the same area.
    std::ostringstream disc;
    std::string face = "f";
    for (int i = 0; i < 300; ++i) {
        disc << "v " << std::cos(i * 2.0 * 3.14159265358979 / 300) << " 0 "
             << -std::sin(i * 2.0 * 3.14159265358979 / 300) << "\n";
        face += " " + std::to_string(i + 1);
    }
    const ImportedMesh round = loaded_obj(disc.str() + face + "\n");
    CHECK(round.mesh.triangles.size() == 298);
    for (const glm::vec3& n : round.mesh.normals) CHECK(n.y > 0.99F);
    // A cube of six quads.
    const ImportedMesh cube =
        loaded_obj("v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1\nv 1 0 1\nv 1 1 1\nv 0 1 1\n"
                   "f 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 3 4 8 7\nf 1 5 8 4\nf 2 3 7 6\n");
    CHECK(cube.mesh.triangles.size() == 12);
    CHECK(volume_of(cube.mesh) == Approx(1.0));
    // A polygon that crosses itself is cut somehow, and nothing breaks.
    CHECK(loaded_obj("v 0 0 0\nv 1 1 0\nv 1 0 0\nv 0 1 0.1\nf 1 2 3 4\n").mesh.triangles.size() ==
          2);
}

TEST_CASE("A locale with decimal commas changes nothing", "[import]") {
    const char* before = std::setlocale(LC_NUMERIC, nullptr);
    const std::string saved = before == nullptr ? "C" : before;
    // Not every machine has one; where none is, this repeats the plain case.
    for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "de_DE", "C"})
        if (std::setlocale(LC_NUMERIC, name) != nullptr) break;
    check_tetrahedron(replaced(corners, "1", "1.0") + faces);
    std::setlocale(LC_NUMERIC, saved.c_str());
    const ImportedMesh commas = loaded_obj("v 0,5 0 0\nv 1,5 0 0\nv 0 2,25 0\nf 1 2 3\n");
    CHECK(commas.bounds.high.y == 2.25F);
    CHECK(has_note(commas, "Decimal commas"));
}

TEST_CASE("A corner with two normals becomes two vertices", "[import]") {
    const ImportedMesh fold = loaded_obj("v 0 0 0\nv 1 0 0\nv 1 1 0\nv 1 0 -1\nv 1 1 -1\n"
                                         "vn 0 0 7\nvn 1 0 0\n"
                                         "f 1//1 2//1 3//1\nf 2//2 4//2 3//2\nf 3//2 4//2 5//2\n");
    CHECK(fold.mesh.positions_m.size() == 7); // the edge twice
    for (std::size_t i = 0; i < 3; ++i) {
        const glm::uvec3& t = fold.mesh.triangles[i];
        const glm::vec3 expected = i == 0 ? glm::vec3(0, 0, 1) : glm::vec3(1, 0, 0);
        for (int k = 0; k < 3; ++k) CHECK(fold.mesh.normals[t[k]] == expected);
    }
    CHECK_FALSE(has_note(fold, "Normals were computed"));
    CHECK(has_note(loaded_obj(corners + faces), "Normals were computed"));
    // Texture corners are ignored, even where they point nowhere.
    check_tetrahedron(corners + "f 1/9 3/9 2/9\nf 1/ 2/ 4/\nf 1 4 3\nf 2 3 4\n");
}

TEST_CASE("Vertex colours are decoded from sRGB, from 0 to 1 or to 255", "[import]") {
    // IEC 61966-2-1: 0.5 decodes to 0.21404, 186/255 to 0.49102.
    const ImportedMesh unit = loaded_obj("v 0 0 0 0.5 0 1\nv 1 0 0 0.5 0 1\nv 0 1 0\nf 1 2 3\n");
    REQUIRE(unit.mesh.colours.size() == 3);
    CHECK(unit.mesh.colours[0].x == Approx(0.21404).margin(1e-4));
    CHECK(unit.mesh.colours[0].z == Approx(1.0));
    CHECK(unit.mesh.colours[2].x == Approx(0.18)); // none given: a grey card
    const ImportedMesh bytes =
        loaded_obj("v 0 0 0 186 0 255\nv 1 0 0 186 0 255 255\nv 0 1 0 1 1 1\nf 1 2 3\n");
    CHECK(bytes.mesh.colours[1].x == Approx(0.49102).margin(1e-3));
    CHECK(loaded_obj(corners + faces).mesh.colours.empty());
}

TEST_CASE("A surface modelled inside out is turned and noted", "[import]") {
    const ImportedMesh turned = loaded_obj(corners + "f 1 2 3\nf 1 4 2\nf 1 3 4\nf 2 4 3\n");
    CHECK(volume_of(turned.mesh) == Approx(1.0 / 6.0));
    CHECK(has_note(turned, "inside out"));
    const glm::vec3 middle(0.25F);
    for (std::size_t i = 0; i < turned.mesh.positions_m.size(); ++i)
        CHECK(glm::dot(turned.mesh.normals[i], turned.mesh.positions_m[i] - middle) > 0.0F);
}
