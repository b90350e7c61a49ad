// A subject from a file against the same head generated: names of patterns, points, heights.
#include "sim/light/emitter.h"
#include "sim/portrait/pattern.h"
#include "sim/set/catalogue.h"
#include "sim/set/set_io.h"
#include "sim/studio/studio.h"
#include "support/helpers/mesh_files.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>

using namespace keystead;

namespace {

Subject bald(const char* preset) {
    Subject subject;
    subject.proportions.preset = preset;
    subject.hair_style = HairStyle::none;
    return subject;
}

/// A generated sitter and the same, head and neck only or whole, as the user's file.
struct Pair {
    mesh_files::Folder folder;
    Set set; ///< asks for the file
    std::shared_ptr<const Studio> generated, own;

    Pair(const char* preset, PersonPart part, bool glb) {
        set.subject = bald(preset);
        generated = make_studio(set);
        const SubjectForm& form = *generated->form;
        Mesh mesh = *form.skin;
        append(mesh, *form.eyes);
        if (part == PersonPart::figure) append(mesh, *form.clothing);
        if (part == PersonPart::head) cut(mesh, form.landmarks.menton.y - 0.06);
        SubjectFile file;
        file.part = part;
        file.path = glb ? "sitter.glb" : "sitter.obj";
        if (glb) {
            folder.write(file.path, mesh_files::as_glb(mesh_files::gltf_of(mesh)));
        } else {
            folder.write(file.path, mesh_files::obj_mm_z_up(mesh));
            file.unit = LengthUnit::millimetre;
            file.up = UpAxis::z;
        }
        set.subject.file = file;
        own = make_studio(set, nullptr, folder.path());
    }

    static void cut(Mesh& mesh, double height_m) {
        std::erase_if(mesh.triangles, [&](const glm::uvec3& t) {
            return static_cast<double>(mesh.positions_m[t.x].y) < height_m;
        });
    }
};

const Pair& man_head() {
    static const Pair pair("mean-male", PersonPart::head, false);
    return pair;
}
const Pair& woman_head() {
    static const Pair pair("mean-female", PersonPart::head, true);
    return pair;
}
const Pair& man_figure() {
    static const Pair pair("mean-male", PersonPart::figure, true);
    return pair;
}

/// A uniform disc that looks at the nose root.
Emitter disc_at(const PosedSubject& subject, double azimuth_deg, double elevation_deg,
                double size_m) {
    Emitter lamp;
    lamp.shape = ModifierShape::disc;
    lamp.width_m = lamp.height_m = size_m;
    lamp.area_m2 = 0.25 * pi * size_m * size_m;
    lamp.exitance = 1000.0;
    const Vec3 to_lamp = subject.head_axes * direction_from({azimuth_deg, elevation_deg});
    lamp.centre_m = subject.landmarks.face + 1.3 * to_lamp;
    lamp.axes = upright_frame(-to_lamp);
    return lamp;
}

PatternReading read(const FaceChart& chart, const Studio& studio, double azimuth_deg,
                    double elevation_deg, double size_m) {
    return read_pattern(chart, disc_at(*studio.subject, azimuth_deg, elevation_deg, size_m),
                        studio.subject->head_axes, studio.subject->head_origin_m);
}

struct Direction {
    double azimuth_deg, elevation_deg;
    const char* name; ///< common practice; tests/data/patterns.csv
};
constexpr Direction five[] = {{0, 45, "butterfly"},
                              {30, 25, "loop"},
                              {50, 40, "rembrandt"},
                              {90, 10, "split"},
                              {135, 20, "rim"}};

double off_mm(const Vec3& a, const Vec3& b) {
    return 1000.0 * glm::length(a - b);
}

} // namespace

TEST_CASE("A head from a file reads the same five patterns as the head it was made from",
          "[studio][own]") {
    for (const Pair* pair : {&man_head(), &woman_head(), &man_figure()}) {
        REQUIRE(pair->own->problems.empty());
        CHECK(pair->own->form->skin->triangles.size() <= 60'000);
        const auto chart = make_face_chart(*pair->own->form);
        for (const Direction& key : five)
            for (const double azimuth : {key.azimuth_deg, -key.azimuth_deg})
                for (const double size : {0.05, 0.9}) {
                    const PatternReading own =
                        read(*chart, *pair->own, azimuth, key.elevation_deg, size);
                    INFO(pair->set.subject.file->path << ' ' << azimuth << ' ' << key.elevation_deg
                                                      << ' ' << size << ": " << own.note);
                    CHECK(std::string(name_of(own.pattern)) == key.name);
                }
    }
}

TEST_CASE("The points of a head from a file lie where those of the generated head do",
          "[studio][own]") {
    for (const Pair* pair : {&man_head(), &woman_head(), &man_figure()}) {
        const PosedSubject &own = *pair->own->subject, &truth = *pair->generated->subject;
        const Landmarks &a = own.landmarks, &b = truth.landmarks;
        INFO(pair->set.subject.file->path);
        // Stature puts the pupils at the same height; the finder is good to some millimetres.
        CHECK(a.pupil_left.y == Approx(b.pupil_left.y).margin(0.003));
        CHECK(off_mm(a.pupil_left, b.pupil_left) < 8.0);
        CHECK(off_mm(a.pronasale, b.pronasale) < 8.0);
        CHECK(off_mm(a.menton, b.menton) < 12.0);
        CHECK(std::abs(a.sellion.y - b.sellion.y) < 0.006);
        CHECK(std::abs(a.subnasale.y - b.subnasale.y) < 0.006);
        CHECK(std::abs(a.stomion.y - b.stomion.y) < 0.008);
        CHECK(std::abs(own.lines.eye_x_mm - truth.lines.eye_x_mm) < 3.0);
    }
}

TEST_CASE("A figure from a file stands on the floor, a head hangs at the sitter's height",
          "[studio][own]") {
    CHECK(lowest_m(*man_figure().own->subject->skin) == Approx(0.0F).margin(1e-4));
    Set taller = man_head().set;
    taller.subject.stature_m += 0.10;
    const auto raised = make_studio(taller, man_head().own, man_head().folder.path());
    CHECK(raised->files.front() == man_head().own->files.front()); // not read again
    // A pupil's height grows with the stature less the head's own height, which stays.
    CHECK(raised->subject->landmarks.pupil_left.y -
              man_head().own->subject->landmarks.pupil_left.y ==
          Approx(0.10).margin(0.003));
}

TEST_CASE("A head from a file turns as one piece with the head's turn", "[studio][own]") {
    Set turned = man_head().set;
    turned.subject.head_turn_deg = 30.0;
    const auto studio = make_studio(turned, man_head().own, man_head().folder.path());
    CHECK(studio->form == man_head().own->form);
    const Vec3 nose = studio->subject->landmarks.pronasale - studio->subject->head_origin_m;
    CHECK(degrees(std::atan2(nose.x, nose.z)) == Approx(30.0).margin(1.5));
    // A turned face in the file is turned back, then by what the document adds.
    Set skewed = man_head().set;
    skewed.subject.file->turn_deg = 20.0;
    const auto skew = make_studio(skewed, man_head().own, man_head().folder.path());
    REQUIRE(skew->problems.empty());
    const Landmarks& marks = skew->subject->landmarks;
    const Vec3 askew = marks.pronasale - 0.5 * (marks.pupil_left + marks.pupil_right);
    CHECK(degrees(std::atan2(askew.x, askew.z)) == Approx(-20.0).margin(3.0));
}

TEST_CASE("A file that can't be used is said in one line, and a sitter stands in",
          "[studio][own]") {
    const mesh_files::Folder folder;
    const auto attempt = [&](const std::string& path, UpAxis up = UpAxis::y) {
        Set set;
        set.subject = bald("mean-male");
        set.subject.file = SubjectFile{};
        set.subject.file->path = path;
        set.subject.file->up = up;
        const auto studio = make_studio(set, man_head().generated, folder.path());
        REQUIRE(studio->problems.size() == 1);
        REQUIRE(studio->subject != nullptr);
        CHECK_FALSE(studio->subject->skin->triangles.empty());
        CHECK(write_set(studio->set) == write_set(set));
        const std::string message = studio->problems.front().message();
        INFO(message);
        CHECK(message.find("subject.file") == 0);
        CHECK(message.find('\n') == std::string::npos);
        return message;
    };
    CHECK(attempt("missing.glb").find("missing.glb") != std::string::npos);
    std::ofstream(folder.path() / "noise.glb") << "glTF but not really";
    CHECK(attempt("noise.glb").find("noise.glb") != std::string::npos);
    // A box has no face.
    std::ofstream(folder.path() / "box.obj")
        << "v 0 0 0\nv .2 0 0\nv .2 .3 0\nv 0 .3 0\nv 0 0 .2\nv .2 0 .2\nv .2 .3 .2\nv 0 .3 .2\n"
           "f 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n";
    CHECK(attempt("box.obj").find("neither found nor placed") != std::string::npos);
    CHECK_FALSE(attempt("").empty());
    CHECK_FALSE(attempt(".").empty());
}

TEST_CASE("Points placed by hand that make no face are refused by name", "[studio][own]") {
    const Set& set = man_head().set;
    const auto problem = [&](const std::function<void(SubjectFile&)>& edit) {
        Set changed = set;
        edit(*changed.subject.file);
        const auto studio = make_studio(changed, man_head().own, man_head().folder.path());
        return studio->problems.empty() ? std::string() : studio->problems.front().path;
    };
    CHECK(problem([](SubjectFile& f) { f.pupil_left_m = Vec3(5, 0, 0); }) ==
          "subject.file.pupil_left_m");
    CHECK(problem([](SubjectFile& f) { f.chin_m = Vec3(0, 1, 0); }) == "subject.file.chin_m");
    CHECK(problem([](SubjectFile& f) { f.nose_tip_m = Vec3(0, 3, 0); }) ==
          "subject.file.nose_tip_m");
    CHECK(problem([](SubjectFile&) {}).empty());
}
