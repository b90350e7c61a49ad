#include "engine/ui/taking_in.h"

#include "engine/ui/set_commands.h"
#include "sim/set/field_rules.h"
#include "sim/set/json_text.h"
#include "sim/studio/file_paths.h"
#include "sim/studio/taken_in.h"

namespace keystead::ui {

namespace {

/// Meshes kept at hand for undo and redo; a scan of 60 000 triangles is some megabytes.
constexpr std::size_t most_at_hand = 6;

bool same(const MeshRequest& a, const MeshRequest& b) {
    return a.path == b.path && a.folder == b.folder && a.unit == b.unit && a.up == b.up &&
           a.find_face == b.find_face && a.max_triangles == b.max_triangles;
}

/// As the studio will ask for it.
MeshRequest request_of(const TakingIn& taking, TakenAs as) {
    MeshRequest request;
    request.path = path_in_set(taking.file, taking.folder);
    request.folder = taking.folder;
    request.unit = taking.unit;
    request.up = taking.up;
    request.find_face = as == TakenAs::subject;
    return request;
}

Json file_json(const MeshRequest& request) {
    return {{"path", request.path}, {"unit", word_of(request.unit)}, {"up", word_of(request.up)}};
}

Command subject_command(const FittedMesh& fitted, const UnitGuess& guess) {
    const MeshRequest& request = fitted.request;
    Json json = file_json(request);
    json["part"] = word_of(part_shown(fitted.stored->landmarks, lowest_m(fitted.stored->mesh),
                                      guess, request.unit, request.up));
    return together("subject from " + std::filesystem::path(request.path).filename().string(),
                    {SetValue{"subject.file", json_line(json)}});
}

Command prop_command(const FittedMesh& fitted, const Set& set) {
    Json json{{"id", free_prop_id(set)}};
    json.update(file_json(fitted.request));
    const Vec3 place = free_prop_place_m(set);
    json["position_m"] = {place.x, place.y, place.z};
    return together("add " + json["id"].get<std::string>(), {SetValue{"props[]", json_line(json)}});
}

} // namespace

void begin_taking(TakingIn& taking, const std::filesystem::path& file,
                  const std::filesystem::path& set_folder, const std::function<void()>& wake) {
    if (!taking.reader) taking.reader = std::make_unique<MeshReader>(wake);
    taking.open = true;
    taking.chosen = false;
    taking.file = file;
    taking.folder = set_folder;
    taking.take_when_ready.reset();
    taking.reader->read(file);
    taking.now = taking.reader->state();
}

void leave(TakingIn& taking) {
    if (taking.reader) taking.reader->stop();
    taking.open = false;
    taking.chosen = false;
    taking.take_when_ready.reset();
    taking.now = {};
}

void choose(TakingIn& taking, LengthUnit unit, UpAxis up) {
    taking.chosen = true;
    taking.unit = unit;
    taking.up = up;
    taking.take_when_ready.reset();
    taking.reader->fit(request_of(taking, TakenAs::subject));
    taking.now = taking.reader->state();
}

void set_moved(TakingIn& taking, const std::filesystem::path& set_folder) {
    if (!taking.open || taking.folder == set_folder) return;
    taking.folder = set_folder;
    if (taking.chosen) choose(taking, taking.unit, taking.up);
}

void take(TakingIn& taking, TakenAs as) {
    if (!taking.now.read || !taking.chosen) return;
    taking.take_when_ready = as;
    const MeshRequest request = request_of(taking, as);
    const bool made = taking.now.fitted && same(taking.now.fitted->request, request);
    const bool coming = taking.now.busy && as == TakenAs::subject;
    if (!made && !coming) taking.reader->fit(request);
}

std::optional<Command> look(TakingIn& taking, const Set& set) {
    if (!taking.open || !taking.reader) return std::nullopt;
    taking.now = taking.reader->state();
    if (taking.now.read && !taking.chosen) {
        const UnitOffer& best = taking.now.read->guess.offers.front();
        choose(taking, best.unit, best.up);
    }
    const std::optional<FittedMesh>& fitted = taking.now.fitted;
    if (!taking.take_when_ready || !fitted ||
        !same(fitted->request, request_of(taking, *taking.take_when_ready)))
        return std::nullopt;
    if (taking.at_hand.size() >= most_at_hand) taking.at_hand.erase(taking.at_hand.begin());
    taking.at_hand.push_back(fitted->stored);
    const Command command = *taking.take_when_ready == TakenAs::subject
                                ? subject_command(*fitted, taking.now.read->guess)
                                : prop_command(*fitted, set);
    leave(taking);
    return command;
}

double height_m(const ReadMesh& read, LengthUnit unit, UpAxis up) {
    const glm::vec3 size = read.imported.bounds.size();
    return static_cast<double>(size[static_cast<int>(up)]) * metres_in(unit);
}

} // namespace keystead::ui
