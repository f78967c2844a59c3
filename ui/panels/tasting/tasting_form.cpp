#include "ui/panels/tasting/tasting_form.h"

#include "core/tasting/photo.h"
#include "ui/panels/photos/photo_reading.h"
#include "ui/panels/photos/photo_strip.h"
#include "ui/panels/photos/photo_view.h"
#include "ui/panels/tasting/scale_entry.h"
#include "ui/panels/tasting/verdict_keys.h"
#include "ui/text/border.h"
#include "ui/text/scale_words.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/number_edit.h"
#include "ui/widgets/prose_edit.h"
#include "ui/widgets/wrap_label.h"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QCompleter>
#include <QDateTimeEdit>
#include <QFileDialog>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QDateTime localTime(const base::Instant& instant) {
    return QDateTime::fromMSecsSinceEpoch(instant.utcMs, Qt::OffsetFromUTC, instant.offsetMinutes * 60);
}

// Far beyond any note, and what the entry still lays out without a wait.
constexpr qsizetype kMostNote = 100'000;

bool isEnter(const QKeyEvent& key) {
    return (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter) &&
           !key.modifiers().testFlag(Qt::ControlModifier);
}

} // namespace

TastingForm::TastingForm(QWidget* parent) : QWidget(parent) {
    m_column = new QVBoxLayout(this);
    m_banner = new Banner;
    m_column->addWidget(makeTop());
    m_column->addWidget(m_banner);
    m_hint = caption(QString());
    m_rings = caption(QString());
    m_rings->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    auto* hint = new QHBoxLayout;
    // Captions never make the page wider than the window.
    for (auto* label : {m_hint, m_rings})
        label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    hint->addWidget(m_hint, 3);
    hint->addWidget(m_rings, 2);
    m_column->addLayout(hint);
    m_scaleRows = new QVBoxLayout;
    m_scaleRows->setSpacing(0);
    m_column->addLayout(m_scaleRows);
    m_column->addWidget(makeNote());
    m_column->addWidget(makeMeasured());

    m_save = new QPushButton;
    m_save->setProperty("act", true);
    m_save->setAutoDefault(false);
    connect(m_save, &QPushButton::clicked, this, &TastingForm::save);
    m_leave = new QPushButton(u"Leave it un&corrected"_s);
    m_leave->setAutoDefault(false);
    connect(m_leave, &QPushButton::clicked, this, [this] {
        setSheet(m_sheet);
        Q_EMIT correctionChanged();
        startEntry();
    });
    m_addPhoto = new QPushButton(u"Add a &photo…"_s);
    m_addPhoto->setAutoDefault(false);
    m_addPhoto->setToolTip(u"Or paste one with Ctrl V, or drop it here. It is kept with the tasting."_s);
    connect(m_addPhoto, &QPushButton::clicked, this, [this] {
        addPhotoFiles(
            QFileDialog::getOpenFileNames(this, u"Add photos"_s, {}, u"Pictures (*.jpg *.jpeg *.png)"_s));
    });
    m_photos = new PhotoStrip;
    m_photos->setAccessibleName(u"Photos to save with this tasting: arrows choose, Delete removes"_s);
    connect(m_photos, &PhotoStrip::removeAsked, this, [this](int index) {
        m_photoBytes.erase(m_photoBytes.begin() + index);
        showPhotos();
        if (m_photoBytes.empty()) m_addPhoto->setFocus();
    });
    connect(m_photos, &PhotoStrip::openAsked, this, [this](int index) {
        auto* view = new PhotoView(
            photoImage(m_photoBytes[static_cast<std::size_t>(index)], tasting::kMostPhotoPixels), {}, this);
        view->setAttribute(Qt::WA_DeleteOnClose);
        view->open();
    });
    setAcceptDrops(true);
    m_column->addWidget(m_photos);
    auto* acts = new QHBoxLayout;
    acts->addWidget(m_save);
    acts->addWidget(m_leave);
    acts->addWidget(m_addPhoto);
    acts->addStretch(1);
    m_column->addSpacing(6);
    m_column->addLayout(acts);
    m_column->addStretch(1);

    // What could not be saved is being mended: the next Save says what is still wrong.
    const auto mended = [this] {
        if (m_banner->kind() == BannerKind::Error) m_banner->show(BannerKind::Error, {});
    };
    connect(m_who, &QComboBox::currentTextChanged, this, mended);
    connect(m_when, &QDateTimeEdit::dateTimeChanged, this, mended);
    connect(m_note, &ProseEdit::edited, this, mended);
    connect(m_verdict, &VerdictKeys::changed, this, mended);
    for (auto* edit : {m_tryNext, m_place, static_cast<QLineEdit*>(m_age), static_cast<QLineEdit*>(m_volume),
                       static_cast<QLineEdit*>(m_weight), static_cast<QLineEdit*>(m_temperature),
                       static_cast<QLineEdit*>(m_brix)})
        connect(edit, &QLineEdit::textEdited, this, mended);
    connect(&Theme::current(), &Theme::changed, this, &TastingForm::dress);
    setSheet({});
    dress();
}

QLabel* TastingForm::caption(const QString& text, QWidget* buddy) {
    auto* label = new QLabel(text);
    label->setBuddy(buddy);
    m_captions.push_back(label);
    return label;
}

QWidget* TastingForm::makeTop() {
    m_who = new QComboBox;
    m_who->setEditable(true);
    m_who->setInsertPolicy(QComboBox::NoInsert);
    m_who->setAccessibleName(u"Who tastes: initials or name"_s);
    m_who->lineEdit()->setPlaceholderText(u"initials"_s);
    m_who->lineEdit()->installEventFilter(this);
    m_who->installEventFilter(this);
    m_when = new QDateTimeEdit;
    m_when->setButtonSymbols(QAbstractSpinBox::NoButtons);
    m_when->setDisplayFormat(u"d MMM yyyy HH:mm"_s);
    m_when->setAccessibleName(u"When it was tasted"_s);
    m_when->installEventFilter(this);
    connect(m_when, &QDateTimeEdit::dateTimeChanged, this, [this] { m_whenTold = true; });
    m_age = new NumberEdit;
    m_age->setAccessibleName(u"In the glass for, minutes after making"_s);
    m_age->setToolTip(u"Minutes from making to tasting. 0 is at once; empty is not said."_s);
    m_age->installEventFilter(this);
    m_place = new QLineEdit;
    m_place->setMaxLength(200);
    m_place->setAccessibleName(u"Where it was tasted"_s);
    m_place->setPlaceholderText(u"the back bar"_s);
    m_place->installEventFilter(this);

    auto* top = new QWidget;
    auto* grid = new QGridLayout(top);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(2);
    grid->addWidget(caption(u"wh&o"_s, m_who), 0, 0);
    grid->addWidget(caption(u"whe&n"_s, m_when), 0, 1);
    grid->addWidget(caption(u"in the &glass, min"_s, m_age), 0, 2);
    grid->addWidget(caption(u"&where"_s, m_place), 0, 3);
    grid->addWidget(m_who, 1, 0);
    grid->addWidget(m_when, 1, 1);
    grid->addWidget(m_age, 1, 2);
    grid->addWidget(m_place, 1, 3);
    grid->setColumnStretch(3, 1);
    return top;
}

QWidget* TastingForm::makeNote() {
    m_note = new ProseEdit(Type::Line, ProseEdit::Undo::Own);
    m_note->setAccessibleName(u"Note"_s);
    m_note->setPlaceholderText(u"what it tastes like, in your words"_s);
    m_note->setEnterLeaves(false); // a letter of the next line must never reach the verdict keys
    m_note->setTakesImages(true);
    connect(m_note, &ProseEdit::imagePasted, this, [this](const QMimeData& held) {
        const auto read = photosFrom(held);
        addPhotos(read.photos, read.refused);
    });
    m_note->setMostCharacters(kMostNote);
    connect(m_note, &ProseEdit::pasteRefused, this, [this](qsizetype characters) {
        showError(u"That note would be %1 characters long."_s.arg(QLocale().toString(characters)),
                  u"A note takes %1. Nothing was pasted; what you wrote is as it was."_s.arg(
                      QLocale().toString(kMostNote)));
        Q_EMIT focusMoved(m_banner);
    });
    auto* noteLabel = caption(u"&free note   Enter for a new line, Tab goes on, Ctrl Enter saves"_s, m_note);
    noteLabel->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_noteFrame = new QFrame;
    m_noteFrame->setFrameShape(QFrame::StyledPanel);
    m_noteFrame->setFocusProxy(m_note);
    // Two lines tall at the least, and growing with what is written.
    auto* noteBox = new QHBoxLayout(m_noteFrame);
    noteBox->setContentsMargins(8, 6, 8, 6);
    noteBox->addWidget(m_note, 1, Qt::AlignTop);
    m_noteRoom = new QSpacerItem(0, 0);
    noteBox->addItem(m_noteRoom);
    m_verdict = new VerdictKeys;
    m_tryNext = new QLineEdit;
    m_tryNext->setAccessibleName(u"Try next"_s);
    m_tryNext->setPlaceholderText(u"honey 17.5"_s);
    connect(m_verdict, &VerdictKeys::leaveForward, this, [this] { goOn(m_verdict, 1); });
    connect(m_verdict, &VerdictKeys::leaveBackward, this, [this] { goOn(m_verdict, -1); });
    connect(m_tryNext, &QLineEdit::returnPressed, this, [this] { goOn(m_tryNext, 1); });

    auto* block = new QWidget;
    auto* column = new QVBoxLayout(block);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(noteLabel);
    column->addWidget(m_noteFrame);
    column->addWidget(m_verdict);
    auto* next = new QHBoxLayout;
    next->addWidget(caption(u"tr&y next"_s, m_tryNext));
    next->addWidget(m_tryNext, 1);
    column->addLayout(next);
    return block;
}

QWidget* TastingForm::makeMeasured() {
    auto* block = new QWidget;
    auto* grid = new QGridLayout(block);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(2);
    const auto field = [&](NumberEdit*& edit, const QString& words, const QString& name, const QString& tip,
                           int column) {
        edit = new NumberEdit;
        edit->setAccessibleName(name);
        edit->setToolTip(tip);
        edit->installEventFilter(this);
        connect(edit, &QLineEdit::textChanged, this, &TastingForm::sayMeasured);
        auto* label = caption(words, edit);
        label->setToolTip(tip);
        grid->addWidget(label, 0, column);
        grid->addWidget(edit, 1, column);
    };
    field(m_volume, u"measured vol&ume, ml"_s, u"Measured volume of the drink, ml"_s,
          u"The drink alone, as it stands in the glass, without ice."_s, 0);
    field(m_weight, u"we&ight, g"_s, u"Measured weight of the drink, g"_s,
          u"The drink alone: without glass and ice."_s, 1);
    field(m_temperature, u"temper&ature, °C"_s, u"Measured temperature, °C"_s,
          u"In the glass, when it was tasted."_s, 2);
    field(m_brix, u"refractometer, B&x"_s, u"Refractometer reading, Bx"_s,
          u"As the instrument reads. With alcohol in the drink that is not its true Brix."_s, 3);
    m_temperature->setBelowZeroAllowed(true);
    for (int i = 0; i < 4; ++i)
        grid->setColumnStretch(i, 1);
    m_measured = new WrapLabel;
    m_measured->setWordWrap(true);
    m_captions.push_back(m_measured);
    grid->addWidget(m_measured, 2, 0, 1, 4);
    connect(m_age, &QLineEdit::textChanged, this, &TastingForm::sayMeasured);
    return block;
}

void TastingForm::makeScales(const std::vector<tasting::ScaleDefinition>& scales) {
    const bool same = std::equal(m_scales.begin(), m_scales.end(), scales.begin(), scales.end(),
                                 [](const ScaleEntry* entry, const tasting::ScaleDefinition& scale) {
                                     return entry->scale() == scale;
                                 });
    if (same) return;
    for (auto* entry : m_scales)
        delete entry;
    m_scales.clear();
    double wide = 0;
    for (const auto& scale : scales)
        wide = std::max(wide, ScaleEntry::nameWidth(fromCore(scale.name)));
    for (const auto& scale : scales) {
        auto* entry = new ScaleEntry(scale);
        entry->setNameWidth(wide);
        m_scaleRows->addWidget(entry);
        entry->show(); // not with the next layout: it may get the focus before
        m_scales.push_back(entry);
        connect(entry, &ScaleEntry::changed, this, [this] {
            if (m_banner->kind() == BannerKind::Error) m_banner->show(BannerKind::Error, {});
        });
        connect(entry, &ScaleEntry::leaveForward, this, [this, entry] { goOn(entry, 1); });
        connect(entry, &ScaleEntry::leaveBackward, this, [this, entry] { goOn(entry, -1); });
        connect(entry, &ScaleEntry::entered, this, [this, entry] {
            m_hint->setText(u"Type a number, %1. Enter goes on"_s.arg(scaleKindHint(entry->scale().kind)));
        });
    }
}

void TastingForm::chain() {
    m_order = {m_who};
    m_order.insert(m_order.end(), m_scales.begin(), m_scales.end());
    m_order.insert(m_order.end(), {m_note, m_verdict, m_tryNext, m_save});
    std::vector<QWidget*> tabs{m_who, m_when, m_age, m_place};
    tabs.insert(tabs.end(), m_scales.begin(), m_scales.end());
    tabs.insert(tabs.end(), {m_note, m_verdict, m_tryNext, m_volume, m_weight, m_temperature, m_brix,
                             m_photos, m_save, m_leave, m_addPhoto});
    for (std::size_t i = 1; i < tabs.size(); ++i)
        setTabOrder(tabs[i - 1], tabs[i]);
}

void TastingForm::goOn(QWidget* from, int direction) {
    const auto here = std::find(m_order.begin(), m_order.end(), from);
    if (here == m_order.end()) return;
    const auto index = here - m_order.begin() + direction;
    if (index < 0 || index >= static_cast<std::ptrdiff_t>(m_order.size())) return;
    auto* to = m_order[static_cast<std::size_t>(index)];
    to->setFocus(direction > 0 ? Qt::TabFocusReason : Qt::BacktabFocusReason);
    Q_EMIT focusMoved(to);
}

void TastingForm::setSheet(const TastingSheet& sheet) {
    m_sheet = sheet;
    m_amends.reset();
    m_before.reset();
    m_rings->setText(sheet.ringsOf.isEmpty() ? QString()
                                             : u"ring: mean of %1’s tasters"_s.arg(sheet.ringsOf));
    m_who->clear();
    for (const auto& person : sheet.people) {
        if (person.initials.empty()) continue;
        m_who->addItem(fromCore(person.initials));
        m_who->setItemData(m_who->count() - 1, fromCore(person.name), Qt::ToolTipRole);
    }
    m_who->setCurrentIndex(-1);
    m_who->setEditText(QString());
    for (const auto& person : sheet.people)
        if (sheet.taster == person.id) m_who->setEditText(fromCore(person.initials));
    m_when->setDateTime(localTime(sheet.now));
    m_whenTold = false;
    m_age->clear();
    m_place->clear();
    auto* places = new QCompleter(sheet.places, m_place);
    places->setCaseSensitivity(Qt::CaseInsensitive);
    places->setCompletionMode(QCompleter::InlineCompletion);
    m_place->setCompleter(places);
    makeScales(sheet.scales);
    chain();
    for (std::size_t i = 0; i < m_scales.size(); ++i) {
        m_scales[i]->setScore(std::nullopt);
        const bool known = i < sheet.rings.size() && sheet.rings[i]; // the book's own come first
        m_scales[i]->setRing(known ? std::optional(sheet.rings[i]->mean) : std::nullopt);
    }
    m_note->show(QString());
    m_verdict->setVerdict(tasting::Verdict::None);
    m_tryNext->clear();
    for (auto* edit : {m_volume, m_weight, m_temperature, m_brix})
        edit->clear();
    m_photoBytes.clear();
    showPhotos();
    sayMeasured();
    m_banner->show(BannerKind::Gap, {});
    m_save->setText(u"&Save the note   Ctrl Enter"_s);
    m_leave->hide();
    m_hint->setText(m_scales.empty() ? u"This book asks for no scores: Taste, Scales."_s
                                     : u"Type a number, Enter goes on"_s);
}

void TastingForm::startEntry() {
    QWidget* first = m_scales.empty() ? static_cast<QWidget*>(m_note) : m_scales[0];
    if (m_who->currentText().isEmpty()) first = m_who;
    first->setFocus(Qt::OtherFocusReason);
}

TastingInput TastingForm::input() const {
    TastingInput input;
    const auto typed = m_who->currentText().simplified();
    input.person = personFor(m_sheet.people, typed);
    input.name = typed;
    input.initials = initialsFrom(typed);
    if (m_whenTold) {
        const auto told = m_when->dateTime();
        input.when = base::Instant{told.toMSecsSinceEpoch(), told.offsetFromUtc() / 60};
    }
    input.circumstances = {m_age->text().trimmed(),         m_place->text().simplified(),
                           m_volume->text().trimmed(),      m_weight->text().trimmed(),
                           m_temperature->text().trimmed(), m_brix->text().trimmed()};
    if (m_before) { // scores on scales that the book has lost since stay as they were
        input.scores = m_before->scores;
        for (const auto* entry : m_scales)
            if (const auto score = input.scores.of(entry->scale().id);
                score && score->kind == entry->scale().kind)
                input.scores.byScale.erase(entry->scale().id);
    }
    for (const auto* entry : m_scales)
        if (entry->score()) input.scores.byScale[entry->scale().id] = {*entry->score(), entry->scale().kind};
    input.note = m_note->toPlainText().trimmed();
    input.verdict = m_verdict->verdict();
    input.tryNext = m_tryNext->text().trimmed();
    input.amends = m_amends;
    input.photos = m_photoBytes;
    return input;
}

void TastingForm::setInput(const TastingInput& input) {
    if (input.amends) {
        m_amends = input.amends;
        for (const auto& entry : m_sheet.tastings)
            if (entry.said.id == *input.amends) m_before = inputFrom(entry);
        m_save->setText(u"&Save the correction   Ctrl Enter"_s);
        m_leave->show();
    }
    if (!input.name.isEmpty()) m_who->setEditText(input.name);
    if (input.when) {
        m_when->setDateTime(localTime(*input.when));
        m_whenTold = true;
    }
    m_age->setText(input.circumstances.glassAge);
    m_place->setText(input.circumstances.place);
    m_volume->setText(input.circumstances.volume);
    m_weight->setText(input.circumstances.weight);
    m_temperature->setText(input.circumstances.temperature);
    m_brix->setText(input.circumstances.brix);
    for (auto* entry : m_scales) {
        const auto score = input.scores.of(entry->scale().id);
        if (score && score->kind == entry->scale().kind) entry->setScore(score->value);
    }
    m_note->show(input.note);
    m_verdict->setVerdict(input.verdict);
    m_tryNext->setText(input.tryNext);
    m_photoBytes = input.photos;
    showPhotos();
    sayMeasured();
    Q_EMIT correctionChanged();
}

bool TastingForm::holdsUnsaved() const {
    const auto now = input();
    if (!m_before) return now.saysSomething();
    auto before = *m_before;
    before.person = personFor(m_sheet.people, before.name);
    before.initials = initialsFrom(before.name);
    return !(now == before);
}

QString TastingForm::problem(QWidget** at) const {
    const auto said = circumstancesFrom(input().circumstances);
    if (!said) {
        using Error = tasting::CircumstanceError;
        switch (said.error()) {
        case Error::GlassAge:
            *at = m_age;
            break;
        case Error::Place:
            *at = m_place;
            break;
        case Error::Volume:
            *at = m_volume;
            break;
        case Error::Weight:
            *at = m_weight;
            break;
        case Error::Temperature:
            *at = m_temperature;
            break;
        case Error::Brix:
            *at = m_brix;
            break;
        }
        return circumstanceProblem(said.error());
    }
    constexpr std::int64_t kDayMs = 86'400'000; // whoever tastes may sit in another zone
    if (m_whenTold && m_when->dateTime().toMSecsSinceEpoch() > m_sheet.now.utcMs + kDayMs) {
        *at = m_when;
        return u"That time has not come yet."_s;
    }
    return {};
}

void TastingForm::save() {
    const auto input = this->input();
    const auto refuse = [this](QWidget* at, const QString& fact, const QString& consequence) {
        showError(fact, consequence);
        at->setFocus(Qt::OtherFocusReason);
        Q_EMIT focusMoved(at);
    };
    if (input.name.isEmpty()) {
        refuse(m_who, u"Who tasted?"_s,
               u"Nothing is saved yet; the note is as you wrote it. Type initials and save again."_s);
        return;
    }
    if (!input.saysSomething()) {
        refuse(m_scales.empty() ? static_cast<QWidget*>(m_note) : m_scales[0], u"Nothing to save yet."_s,
               u"Give a score, a note or a verdict."_s);
        return;
    }
    QWidget* at = nullptr;
    if (const auto why = problem(&at); !why.isEmpty()) {
        refuse(at, why, u"Nothing is saved yet; everything is as you wrote it."_s);
        return;
    }
    if (isCorrecting() && !holdsUnsaved()) {
        refuse(m_save, u"Nothing was changed."_s, u"What was said stands as it is."_s);
        return;
    }
    Q_EMIT saveRequested(input);
}

void TastingForm::showError(const QString& fact, const QString& consequence, const QString& act) {
    m_banner->show(BannerKind::Error, {fact, consequence, act});
}

QString TastingForm::measuredText() const {
    return m_measured->text();
}

void TastingForm::sayMeasured() {
    const auto said = m_sheet.measuring ? circumstancesFrom(input().circumstances)
                                        : tl::expected<tasting::Circumstances, tasting::CircumstanceError>{};
    m_measured->setText(m_sheet.measuring && said ? measuredWords(*m_sheet.measuring, *said) : QString());
    m_measured->setVisible(!m_measured->text().isEmpty());
}

void TastingForm::keyPressEvent(QKeyEvent* event) {
    const auto* held = QApplication::clipboard()->mimeData();
    if (event->matches(QKeySequence::Paste) && held && holdsPhotos(*held)) {
        const auto read = photosFrom(*held);
        addPhotos(read.photos, read.refused);
        return;
    }
    QWidget::keyPressEvent(event);
}

bool TastingForm::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const auto* key = dynamic_cast<QKeyEvent*>(event);
        if (key && isEnter(*key)) {
            if (watched == m_who || watched == m_who->lineEdit()) {
                goOn(m_who, 1);
                return true;
            }
            for (QWidget* field :
                 {static_cast<QWidget*>(m_when), static_cast<QWidget*>(m_age), static_cast<QWidget*>(m_place),
                  static_cast<QWidget*>(m_volume), static_cast<QWidget*>(m_weight),
                  static_cast<QWidget*>(m_temperature), static_cast<QWidget*>(m_brix)})
                if (watched == field) {
                    focusNextPrevChild(true);
                    return true;
                }
        }
    }
    return QWidget::eventFilter(watched, event);
}

void TastingForm::dress() {
    const auto& theme = Theme::current();
    m_column->setContentsMargins(theme.pxInt(20), theme.pxInt(14), theme.pxInt(20), theme.pxInt(20));
    for (auto* label : m_captions) {
        label->setFont(theme.font(Type::Caption));
        auto palette = label->palette();
        palette.setColor(QPalette::WindowText, theme.color(Token::Ink2));
        label->setPalette(palette);
    }
    m_tryNext->setFont(theme.font(Type::Reason));
    m_place->setFont(theme.font(Type::Reason));
    m_who->setFont(theme.font(Type::ReadingServed));
    m_who->setMinimumWidth(theme.pxInt(84));
    m_age->setFixedWidth(theme.pxInt(84));
    for (auto* field : std::initializer_list<QWidget*>{m_who, m_when, m_age, m_place, m_volume, m_weight,
                                                       m_temperature, m_brix})
        field->setFixedHeight(theme.pxInt(27));
    for (auto* edit : {m_volume, m_weight, m_temperature, m_brix})
        edit->setMinimumWidth(theme.pxInt(56));
    m_noteRoom->changeSize(0, theme.pxInt(48));
    m_noteFrame->layout()->invalidate();
}

} // namespace stillroom::ui
