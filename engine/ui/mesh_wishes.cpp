#include "engine/ui/mesh_wishes.h"

#include <sstream>

namespace keystead::ui {

bool carry_out_mesh_wish(App& app, const Wish& wish) {
    TakingIn& taking = app.taking;
    std::istringstream numbers(wish.text);
    int first = -1, second = 0;
    numbers >> first >> second;
    switch (wish.act) {
    case Act::choose_mesh:
        open_mesh_list(app.files, taking.open ? taking.file.parent_path() : app.folder());
        return true;
    case Act::read_mesh:
        begin_taking(taking, wish.text, app.folder(), app.wake);
        return true;
    case Act::stop_mesh:
        leave(taking);
        return true;
    case Act::choose_unit:
        choose(taking, static_cast<LengthUnit>(first), static_cast<UpAxis>(second));
        return true;
    case Act::take_subject:
    case Act::take_prop:
        take(taking, wish.act == Act::take_prop ? TakenAs::prop : TakenAs::subject);
        return true;
    case Act::place_point:
        app.placing = {};
        if (first >= 0) app.placing.wanted = static_cast<OwnPointKind>(first);
        return true;
    case Act::place_missed:
        app.placing.missed = true;
        return true;
    default:
        return false;
    }
}

} // namespace keystead::ui
