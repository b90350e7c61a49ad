// Points of the user's own head placed by a click in the lens picture.
#include "sim/review/sight.h"
#include "tests/engine/ui/own_file_bench.h"

#include <cmath>

using namespace keystead;
using namespace keystead::ui;
using testing::OwnFileBench;

namespace {

struct PlacingBench : OwnFileBench {
    explicit PlacingBench(const std::string& name = "head.obj", const char* unit = "mm",
                          const char* up = "z") {
        const std::string path = (folder.path() / name).string();
        REQUIRE_FALSE(
            app.history.run(SetValue{"subject.file", R"({"path": ")" + path + R"(", "unit": ")" +
                                                         unit + R"(", "up": ")" + up + "\"}"}));
        // Straight on, near enough for a click to be a fraction of a millimetre.
        REQUIRE_FALSE(app.history.run(SetValue{"camera.position_m", "[0, 1.5, 2.0]"}));
        app.selection = {Thing::subject, {}};
        app.sections.own = true;
        app.sections.pose = app.sections.looks = false;
        make();
    }
    ImVec2 in_picture_px(const Vec3& room_m) {
        Vec2 at(0.0);
        REQUIRE(in_picture(camera_frame(app.studio->set.camera), room_m, at));
        const Rect& r = app.lens_picture;
        return {r.centre_x() + 0.5F * r.w * static_cast<float>(at.x),
                r.centre_y() - 0.5F * r.h * static_cast<float>(at.y)};
    }
    void place(std::size_t i, const ImVec2& at) {
        click(in_panel(std::string("place ") + own_point_fields[i]));
        CHECK(app.placing.wanted);
        click(at);
    }
};

} // namespace

TEST_CASE("A click in the picture places a point of the face, one undo step each") {
    PlacingBench bench;
    REQUIRE(bench.app.studio->problems.empty());
    const std::array<OwnPoint, 5> known = own_points(*bench.app.studio);
    for (const std::size_t i : {std::size_t{0}, std::size_t{1}, std::size_t{2}}) {
        REQUIRE(known[i].point);
        bench.place(i, bench.in_picture_px(*known[i].in_room_m));
        CHECK_FALSE(bench.app.placing.wanted);
        const SubjectFile& file = *bench.file();
        const std::array<std::optional<Vec3>, 3> placed{file.nose_tip_m, file.pupil_left_m,
                                                        file.pupil_right_m};
        INFO(own_point_fields[i]);
        REQUIRE(placed[i]);
        // One pixel of this small picture is some millimetres of the face.
        CHECK(glm::length(*placed[i] - known[i].point->point_m) < 0.006);
        bench.make();
    }
    CHECK(bench.app.history.undo_label() == "file pupil right");
    bench.press('Z', true);
    CHECK_FALSE(bench.file()->pupil_right_m);
    CHECK(bench.file()->pupil_left_m);
    // "forget" goes back to what was found.
    bench.make();
    bench.click(bench.in_panel("forget nose_tip_m"));
    CHECK_FALSE(bench.file()->nose_tip_m);
}

TEST_CASE("A click beside the head places nothing and says so; Escape leaves") {
    PlacingBench bench;
    const Rect& picture = bench.app.lens_picture;
    bench.place(3, {picture.x + 6.0F, picture.y + 6.0F});
    CHECK(bench.app.placing.missed);
    CHECK(bench.app.placing.wanted);
    CHECK_FALSE(bench.file()->chin_m);
    CHECK(bench.app.selection.thing == Thing::subject); // the click did not select the camera
    bench.table.key(ImGuiKey_Escape, true), bench.frames(2);
    bench.table.key(ImGuiKey_Escape, false), bench.frames(1);
    CHECK_FALSE(bench.app.placing.wanted);
}

TEST_CASE("A head whose face is not found is shown all the same, and made usable by clicks") {
    // An egg of a head's size: 160 x 230 x 190 mm.
    Mesh egg;
    constexpr int rings = 60, around = 80;
    for (int i = 0; i <= rings; ++i)
        for (int j = 0; j < around; ++j) {
            const double a = pi * i / rings, b = 2.0 * pi * j / around;
            egg.positions_m.emplace_back(0.080 * std::sin(a) * std::cos(b), -0.115 * std::cos(a),
                                         0.095 * std::sin(a) * std::sin(b));
        }
    for (glm::uint i = 0; i < rings; ++i)
        for (glm::uint j = 0; j < around; ++j) {
            const glm::uint a = i * around + j, b = i * around + (j + 1) % around;
            egg.triangles.emplace_back(a, a + around, b);
            egg.triangles.emplace_back(b, a + around, b + around);
        }
    const mesh_files::Folder place;
    const auto file = place.write("egg.glb", mesh_files::as_glb(mesh_files::gltf_of(egg)));
    PlacingBench bench(file.string(), "m", "y");
    REQUIRE(bench.app.studio->problems.size() == 1);
    CHECK(bench.app.studio->problems[0].path == "subject.file.nose_tip_m");
    // The egg stands in the picture, not somebody else.
    const auto shown = [&] { return bench.app.studio->subject->skin; };
    CHECK(shown()->triangles.size() == bench.app.studio->files.front()->mesh.triangles.size());
    const auto front_of = [&](double x, double y) {
        const double z = 0.095 * std::sqrt(1.0 - x * x / 0.0064 - y * y / (0.115 * 0.115));
        const auto& stored = bench.app.studio->files.front()->mesh.positions_m;
        std::size_t nearest = 0;
        for (std::size_t i = 0; i < stored.size(); ++i)
            if (glm::length(Vec3(stored[i]) - Vec3(x, y, z)) <
                glm::length(Vec3(stored[nearest]) - Vec3(x, y, z)))
                nearest = i;
        return bench.in_picture_px(Vec3(shown()->positions_m[nearest]));
    };
    const std::array<Vec2, 4> places{Vec2(0, -0.02), Vec2(0.031, 0.02), Vec2(-0.031, 0.02),
                                     Vec2(0, -0.09)};
    for (std::size_t i = 0; i < places.size(); ++i) {
        bench.place(i, front_of(places[i].x, places[i].y));
        bench.make();
    }
    INFO((bench.app.studio->problems.empty() ? std::string()
                                             : bench.app.studio->problems[0].message()));
    CHECK(bench.app.studio->problems.empty());
    CHECK(bench.file()->pupil_left_m->x == Approx(0.031).margin(0.006));
    CHECK(bench.file()->chin_m->y == Approx(-0.09).margin(0.008));
}
