#pragma once

#include <array>
#include <string_view>

namespace mw {

/// Lines of the youth theatre's radio play about the kettle-mender's shop; tests run over all of them.
inline constexpr std::array<std::string_view, 30> play_lines{
    "Mend the kettle.",
    "Greg's kettle clicks, but it never whistles.",
    "Put the pink tulip in the tin cup.",
    "This thick script needs thirty-three thin clips.",
    "Old Mr Tarrant waited in the shop until seven o'clock.",
    "Which copper lid fits the squat little pot?",
    "Bring the solder, Sheila, and shut the shutters.",
    "I can't ask Martha to bath the cat after lunch.",
    "The caught coat hung on the hot cot hook.",
    "Four poor porters poured water over the floor.",
    "Cure the rust with pure cider vinegar, not with oil.",
    "Nora saw Laura and asked her for the idea of it.",
    "Did you get your better battery at the market yesterday?",
    "Ten boys and ten girls gathered in the garden.",
    "The news on Tuesday: two new tunes for the duke's tuba.",
    "He had half a happy hour before his house heard the whistle.",
    "Merry Mary will marry Murray in the mirror maze.",
    "The bird heard the third word of the worried nurse.",
    "Pull the wool over the full bull's hoof.",
    "A button, a mountain of cotton, and a bottle of batter.",
    "She sold seven silver spoons to the smith's sister.",
    "The voice of the boy was choice and loud.",
    "No one wrote the right note in the night boat log.",
    "Thin Keith thought that these three things were theirs.",
    "Play the radio louder, please: the actors mumble.",
    "The actor's lines were 12 and 27, not 105.",
    "On 5 May 1984 the shop cost \xC2\xA3"
    "3.50 to hire at 7:30.",
    "Beer, bare ears and bears were near here last year.",
    "My wife likes five white ties; nine lie by the fire.",
    "Milk, salt, cold oil and a full pail of apples fell."};

} // namespace mw
