// A file of the user's own taken into the set through the window.
#include "engine/ui/set_commands.h"
#include "tests/engine/ui/own_file_bench.h"

using namespace keystead;
using namespace keystead::ui;
using testing::OwnFileBench;

TEST_CASE("A file let go over the window is offered with its height and becomes the subject") {
    OwnFileBench bench;
    bench.drop("head.obj");
    CHECK(bench.app.taking.open);
    bench.wait_for_reader();
    REQUIRE(bench.app.taking.now.read);
    // Millimetres and Z up are only offered: nothing is taken yet.
    CHECK(bench.app.taking.unit == LengthUnit::millimetre);
    CHECK(bench.app.taking.up == UpAxis::z);
    CHECK(height_m(*bench.app.taking.now.read, LengthUnit::millimetre, UpAxis::z) ==
          Approx(0.255).margin(0.03));
    CHECK(bench.app.taking.now.fitted->stored->landmarks.complete());
    CHECK_FALSE(bench.file());
    CHECK_FALSE(bench.app.history.can_undo());
    bench.click(bench.in_panel("take subject"));
    bench.wait_for_reader();
    REQUIRE(bench.file());
    CHECK(bench.file()->unit == LengthUnit::millimetre);
    CHECK(bench.file()->up == UpAxis::z);
    CHECK(bench.file()->part == PersonPart::head);
    CHECK_FALSE(bench.app.taking.open);
    CHECK(bench.app.selection.thing == Thing::subject);
    CHECK(bench.app.history.undo_label() == "subject from head.obj");
    // The studio takes what was read instead of reading it again.
    bench.make();
    CHECK(bench.app.studio->problems.empty());
    CHECK(bench.app.studio->files.front() == bench.app.taking.at_hand.back());
    bench.press('Z', true);
    CHECK_FALSE(bench.file());
}

TEST_CASE("Another reading of the numbers can be chosen before the file is taken") {
    OwnFileBench bench;
    bench.drop("head.obj");
    bench.wait_for_reader();
    bench.click(bench.in_panel("offer 1"));
    const UnitOffer& second = bench.app.taking.now.read->guess.offers[1];
    CHECK(bench.app.taking.unit == second.unit);
    CHECK(bench.app.taking.up == second.up);
    bench.wait_for_reader();
    bench.click(bench.in_panel("offer 0"));
    CHECK(bench.app.taking.unit == LengthUnit::millimetre);
    bench.click(bench.in_panel("stop taking"));
    CHECK_FALSE(bench.app.taking.open);
    CHECK_FALSE(bench.app.history.can_undo());
}

TEST_CASE("A set saved while a file waits names that file from where it lies now") {
    OwnFileBench bench;
    bench.drop("head.obj");
    bench.wait_for_reader();
    Outbox out;
    out.wish(Act::save_as, (bench.folder.path() / "set.json").string());
    carry_out(bench.app, out);
    bench.wait_for_reader();
    bench.click(bench.in_panel("take subject"));
    bench.wait_for_reader();
    REQUIRE(bench.file());
    CHECK(bench.file()->path == "head.obj");
}

TEST_CASE("A file that can't be used is said in the panel and leaves the set as it is") {
    OwnFileBench bench;
    bench.folder.write("noise.glb", std::string("glTF but not really"));
    bench.drop("noise.glb");
    bench.wait_for_reader();
    REQUIRE(bench.app.taking.now.problem);
    const std::string message = bench.app.taking.now.problem->message();
    CHECK(message.find("noise.glb") != std::string::npos);
    CHECK(message.find('\n') == std::string::npos);
    bench.click(bench.in_panel("stop taking"));
    CHECK_FALSE(bench.app.taking.open);
    CHECK_FALSE(bench.app.history.dirty());
    bench.drop("nobody.glb");
    bench.wait_for_reader();
    CHECK(bench.app.taking.now.problem);
}

TEST_CASE("While a large scan is read the window goes on, and Stop ends it at once") {
    OwnFileBench bench;
    std::string scan;
    constexpr int side = 500; // half a million triangles
    for (int i = 0; i <= side; ++i)
        for (int j = 0; j <= side; ++j)
            scan += "v " + std::to_string(i) + ' ' + std::to_string((i * j) % 7) + ' ' +
                    std::to_string(j) + '\n';
    for (int i = 0; i < side; ++i)
        for (int j = 1; j <= side; ++j) {
            const int a = i * (side + 1) + j, b = a + side + 1;
            scan += "f " + std::to_string(a) + ' ' + std::to_string(a + 1) + ' ' +
                    std::to_string(b + 1) + ' ' + std::to_string(b) + '\n';
        }
    bench.folder.write("scan.obj", scan);
    bench.drop("scan.obj");
    int frames = 0;
    double share = 0.0;
    while (bench.app.taking.now.busy && !bench.app.taking.now.read && frames < 20) {
        take_results(bench.app);
        bench.frames(1);
        share = std::max(share, bench.app.taking.now.share);
        ++frames;
    }
    CHECK(frames >= 5); // built while the file was being read
    REQUIRE(bench.app.taking.now.busy);
    bench.click(bench.in_panel("stop taking"));
    CHECK_FALSE(bench.app.taking.open);
    // And the reader is free for another file.
    bench.drop("head.obj");
    bench.wait_for_reader();
    CHECK(bench.app.taking.now.fitted);
    CHECK_FALSE(bench.app.history.dirty());
}

TEST_CASE("A prop is added, moved, sized and removed, each an undo step") {
    OwnFileBench bench;
    bench.drop("head.obj");
    bench.wait_for_reader();
    bench.click(bench.in_panel("take prop"));
    bench.wait_for_reader();
    const auto props = [&] { return bench.app.history.set().props; };
    REQUIRE(props().size() == 1);
    CHECK(props()[0].id == "prop-1");
    CHECK(bench.app.selection.thing == Thing::room);
    bench.make();
    CHECK(bench.app.studio->problems.empty());
    bench.app.sections.room = bench.app.sections.background = false;
    bench.frames(2);
    const auto type = [&](const char* id, const char* text) {
        bench.click(bench.in_panel(id));
        bench.frames(3);
        REQUIRE(bench.app.rows.editing != 0);
        bench.table.type(text);
        bench.frames(2);
        bench.table.key(ImGuiKey_Enter, true), bench.frames(2);
        bench.table.key(ImGuiKey_Enter, false), bench.frames(1);
    };
    type("props[prop-1].position_m/x", "1.4 m");
    CHECK(props()[0].position_m.x == Approx(1.4));
    CHECK(bench.app.history.undo_label() == "place of prop-1");
    type("props[prop-1].turn_deg", "90");
    CHECK(props()[0].turn_deg == Approx(90.0));
    type("props[prop-1].scale", "150");
    CHECK(props()[0].scale == Approx(1.5));
    bench.click(bench.in_panel("remove prop-1"));
    CHECK(props().empty());
    CHECK(bench.app.history.undo_label() == "remove prop-1");
    bench.press('Z', true);
    REQUIRE(props().size() == 1);
    CHECK(props()[0].scale == Approx(1.5));
}

TEST_CASE("Files are still found when a set is saved in another folder") {
    Set set;
    set.subject.file = SubjectFile{};
    set.subject.file->path = "head.obj";
    Prop prop;
    prop.id = "box";
    prop.path = "/elsewhere/things/box.obj";
    set.props.push_back(prop);
    const auto moved = [&](const char* from, const char* to) {
        Result<Set> now = keystead::apply(set, Batch{"", path_commands(set, from, to)});
        INFO((now ? std::string() : now.problem().message()));
        REQUIRE(now);
        return now.value();
    };
    const Set away = moved("/sets/one", "/sets/two");
    CHECK(away.subject.file->path == "/sets/one/head.obj");
    CHECK(away.props[0].path == "/elsewhere/things/box.obj");
    // Below the new folder: relative, so that both can move together.
    CHECK(moved("/sets/one", "/sets").subject.file->path == "one/head.obj");
    CHECK(moved("/sets/one", "/elsewhere").props[0].path == "things/box.obj");
    CHECK(path_commands(set, "/sets/one", "/sets/one").empty());
}
