// A generated head written as the user's own file, beside a set, in the window.
#pragma once

#include "sim/subject/subject.h"
#include "support/helpers/mesh_files.h"
#include "tests/engine/ui/window_bench.h"

#include <chrono>
#include <thread>

namespace keystead::ui::testing {

/// Head and neck of a preset without hair: metres, Y up, facing +Z.
inline const Mesh& own_head() {
    static const Mesh head = [] {
        Subject subject;
        subject.proportions.preset = "small-female";
        subject.hair_style = HairStyle::none;
        const SubjectForm form = build_subject(subject);
        Mesh mesh = *form.skin;
        append(mesh, *form.eyes);
        const double neck_m = form.landmarks.menton.y - 0.05;
        std::erase_if(mesh.triangles, [&](const glm::uvec3& t) {
            return static_cast<double>(mesh.positions_m[t.x].y) < neck_m;
        });
        return mesh;
    }();
    return head;
}

struct OwnFileBench : WindowBench {
    mesh_files::Folder folder;

    OwnFileBench()
        : WindowBench("harbour-choir-short") {
        folder.write("head.obj", mesh_files::obj_mm_z_up(own_head()));
    }
    /// As a file let go over the window.
    void drop(const std::string& name) {
        Outbox out;
        out.wish(Act::read_mesh, (folder.path() / name).string());
        carry_out(app, out);
        frames(2);
    }
    /// Frames as the window builds them while the reader works; how many.
    int wait_for_reader() {
        int built = 0;
        for (; app.taking.open && (app.taking.now.busy || !settled()); ++built) {
            take_results(app);
            frames(1);
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
            REQUIRE(built < 60'000);
        }
        return built;
    }
    bool settled() const {
        return app.taking.now.problem.has_value() ||
               (app.taking.now.fitted.has_value() && !app.taking.take_when_ready);
    }
    /// What the workshop would make of the set now.
    void make() {
        app.studio = make_studio(app.history.set(), app.studio, app.folder(), app.taking.at_hand);
        frames(2);
    }
    const std::optional<SubjectFile>& file() const { return app.history.set().subject.file; }
};

} // namespace keystead::ui::testing
