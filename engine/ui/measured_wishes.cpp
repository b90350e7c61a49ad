#include "engine/ui/measured_wishes.h"

#include "engine/ui/set_commands.h"
#include "sim/photometry/photometric_file.h"
#include "sim/studio/file_paths.h"

#include <nlohmann/json.hpp>

namespace keystead::ui {

namespace {

void say(App& app, std::string words, bool bad) {
    app.notice = std::move(words);
    app.notice_is_bad = bad;
}

/// For the picked light, in place of what its modifier does to the light.
void take(App& app, const std::filesystem::path& file) {
    if (app.selection.thing != Thing::light)
        return say(app,
                   "pick the light first that " + file.filename().string() + " was measured on",
                   true);
    const auto read = read_photometric_file(file);
    if (!read) return say(app, read.problem().message(), true);
    const nlohmann::json value{{"path", path_in_set(file, app.folder())}};
    const Command command =
        together("measured light of " + app.selection.id,
                 {SetValue{light_path(app.selection.id, "modifier.photometric"), value.dump()}});
    if (app.dragging()) app.history.commit_drag();
    if (const Outcome problem = app.history.run(command)) return say(app, problem->message(), true);
    say(app, file.filename().string() + " shapes this light now", false);
}

} // namespace

bool is_measured_file(const std::filesystem::path& file) {
    return ends_like(file, {".ies", ".ldt"});
}

bool carry_out_measured_wish(App& app, const Wish& wish) {
    switch (wish.act) {
    case Act::choose_measured:
        return open_measured_list(app.files, app.folder()), true;
    case Act::read_measured:
        return take(app, wish.text), true;
    default:
        return false;
    }
}

} // namespace keystead::ui
