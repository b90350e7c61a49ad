// The lights a set is usually begun with, as entries of an open list.
#pragma once

#include "engine/ui/outbox.h"

namespace keystead::ui {

void role_items(Outbox& out);

} // namespace keystead::ui
