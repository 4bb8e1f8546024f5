/* The house fonts and hyphenation patterns, put into the program as they are. Each file has a
   start and an end label; see house.cpp. The include path is the assets folder. */
    .section .rodata
#define EMBED(name, file) \
    .balign 16;           \
    .global name;         \
    .global name##_end;   \
name:                     \
    .incbin file;         \
name##_end:               \
    .byte 0

EMBED(quoin_house_regular, "fonts/NotoSans-Regular.ttf")
EMBED(quoin_house_bold, "fonts/NotoSans-Bold.ttf")
EMBED(quoin_house_italic, "fonts/NotoSans-Italic.ttf")
EMBED(quoin_house_bold_italic, "fonts/NotoSans-BoldItalic.ttf")
EMBED(quoin_house_patterns, "hyphenation/hyph_en_US.dic")

    .section .note.GNU-stack, "", @progbits
