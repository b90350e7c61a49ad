#include "engine/ui/head_follow.h"

#include "engine/edit/light_place.h"
#include "engine/ui/set_commands.h"

#include <cstdlib>

namespace keystead::ui {

namespace {

constexpr const char* turn_path = "subject.head_turn_deg";
constexpr const char* nod_path = "subject.head_nod_deg";
constexpr const char* roll_path = "subject.head_roll_deg";

HeadPose wished(const Subject& s, const std::string& path, double value_deg) {
    HeadPose head{s.head_turn_deg, s.head_nod_deg, s.head_roll_deg};
    (path == turn_path  ? head.turn_deg
     : path == nod_path ? head.nod_deg
                        : head.roll_deg) = value_deg;
    return head;
}

/// All of the head, the light after it: a drag starts from the same set every time, so what it
/// leaves alone has to be said as well.
Batch whole(const HeadFollow& follow, const HeadPose& head, const Batch& light) {
    Batch batch{"head with " + follow.light, {}};
    put_angle(batch, turn_path, head.turn_deg);
    put_angle(batch, nod_path, head.nod_deg);
    put_angle(batch, roll_path, head.roll_deg);
    batch.commands.insert(batch.commands.end(), light.commands.begin(), light.commands.end());
    return batch;
}

} // namespace

Command head_command(HeadFollow& follow, const std::string& path, double value_deg) {
    follow.stopped.clear();
    if (!follow.active()) return set_number(path, value_deg);
    const Subject& before = follow.start->set.subject;
    const auto followed = follow_with(*follow.start, follow.light, wished(before, path, value_deg));
    if (followed) {
        follow.stopped = followed.value().stopped_by;
        return whole(follow, followed.value().head, followed.value().command);
    }
    follow.stopped = followed.problem().allowed;
    Batch stays{{}, {}};
    for (const Light& light : follow.start->set.lights)
        if (light.id == follow.light) put_place(stays, light);
    return whole(follow, {before.head_turn_deg, before.head_nod_deg, before.head_roll_deg}, stays);
}

void take_light_along(HeadFollow& follow, const Grip& grip, Dragged& dragged) {
    if (!follow.active() || grip.what.thing != Thing::subject || grip.kind != GripKind::head ||
        !dragged.command)
        return;
    const auto* wanted = std::get_if<SetValue>(&*dragged.command);
    if (wanted == nullptr) return;
    dragged.command = head_command(follow, wanted->path, std::atof(wanted->value.c_str()));
    dragged.words += ", " + follow.letter + " moves along";
    if (!follow.stopped.empty()) dragged.pushed_back = follow.letter + ": " + follow.stopped;
}

} // namespace keystead::ui
