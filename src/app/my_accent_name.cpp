#include "app/my_accent.h"
#include "app/writing.h"

#include "accent/edit.h"

namespace mw::app {

bool show_name_field(Session& session, const Theme& theme, const Input& input, double u, double wall_s, int width, int height) {
  Writing& naming = *session.naming;
  const Written now = write_on(naming, theme, input, 15.5 * u, wall_s, width, height);
  session.field_active = true;
  if (now == Written::goes_on) return naming.pictures < 5;
  const std::string text = naming.text;
  session.naming.reset();
  session.field_active = false;
  if (now != Written::given_up) {
    const MyAccent& mine = my_accent(session);
    commit(session, with_name(mine.accent, text));
  }
  return true;
}

} // namespace mw::app
