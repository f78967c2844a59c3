#include "ui/panels/tasting/scales_dialog.h"

#include "ui/text/border.h"
#include "ui/text/scale_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::ScaleKind;

namespace {

constexpr std::array<ScaleKind, 3> kKinds{ScaleKind::FifteenPoint, ScaleKind::JustAboutRight,
                                          ScaleKind::NinePoint};

QString inWords(tasting::ScaleError error) {
    switch (error) {
    case tasting::ScaleError::RepeatedName:
    case tasting::ScaleError::RepeatedId:
        return u"Two scales have the same name."_s;
    case tasting::ScaleError::LongName:
        return u"A name is at most 60 characters."_s;
    case tasting::ScaleError::TooMany:
        return u"A book holds %1 scales at most."_s.arg(tasting::kMostScales);
    case tasting::ScaleError::BadId:
    case tasting::ScaleError::NoName:
        return u"A scale has no name."_s;
    }
    return {};
}

} // namespace

ScalesDialog::ScalesDialog(const tasting::ScaleSet& scales, QWidget* parent) : QDialog(parent) {
    const auto& theme = Theme::current();
    setWindowTitle(u"Tasting scales"_s);
    auto* about = new WrapLabel;
    about->setWordWrap(true);
    about->setText(
        u"What tasters are asked for, in this order. Alt ↑ ↓ moves a scale, Ctrl Delete takes it out. "
        "Tastings keep the scores they have."_s);
    auto* inside = new QWidget;
    m_list = new QVBoxLayout(inside);
    m_list->setContentsMargins(0, 0, theme.pxInt(6), 0);
    m_list->setSpacing(theme.pxInt(6));
    m_list->addStretch(1);
    m_scroll = new QScrollArea;
    m_scroll->setWidget(inside);
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_note = new WrapLabel;
    m_note->setWordWrap(true);

    auto* buttons = new QDialogButtonBox;
    m_save = buttons->addButton(u"&Save"_s, QDialogButtonBox::AcceptRole);
    m_save->setProperty("act", true);
    m_save->setDefault(true);
    auto* leave = buttons->addButton(u"&Leave it"_s, QDialogButtonBox::RejectRole);
    m_usual = buttons->addButton(u"The &usual seven"_s, QDialogButtonBox::ResetRole);
    for (auto* button : {leave, m_usual})
        button->setAutoDefault(false);
    connect(m_usual, &QPushButton::clicked, this, [this] { show(tasting::ScaleSet::defaults()); });
    connect(buttons, &QDialogButtonBox::accepted, this, [this] {
        if (!m_save->isEnabled()) return;
        Q_EMIT saveAsked(this->scales());
        accept();
    });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    column->addWidget(about);
    column->addSpacing(theme.pxInt(8));
    column->addWidget(m_scroll, 1);
    column->addWidget(m_note);
    column->addWidget(buttons);
    resize(theme.pxInt(520), theme.pxInt(470));
    show(scales);
    m_rows.front().name->setFocus();
}

QString ScalesDialog::note() const {
    return m_note->text();
}

void ScalesDialog::show(const tasting::ScaleSet& scales) {
    for (const auto& row : m_rows)
        row.box->deleteLater();
    m_rows.clear();
    for (const auto& scale : scales.scales)
        addRow(scale);
    tie();
    check();
}

void ScalesDialog::addRow(const tasting::ScaleDefinition& scale) {
    Row row;
    row.id = scale.id;
    row.box = new QWidget(m_scroll->widget());
    row.name = new QLineEdit(fromCore(scale.name));
    row.name->setPlaceholderText(u"another scale"_s);
    row.kind = new QComboBox;
    for (const auto kind : kKinds)
        row.kind->addItem(scaleKindName(kind));
    row.kind->setCurrentIndex(
        static_cast<int>(std::find(kKinds.begin(), kKinds.end(), scale.kind) - kKinds.begin()));
    for (QWidget* field : {static_cast<QWidget*>(row.name), static_cast<QWidget*>(row.kind)})
        field->installEventFilter(this);
    auto* across = new QHBoxLayout(row.box);
    across->setContentsMargins(2, 2, 2, 2);
    across->addWidget(row.name, 1);
    across->addWidget(row.kind);
    m_list->insertWidget(static_cast<int>(m_rows.size()), row.box);
    row.box->show();
    connect(row.name, &QLineEdit::textChanged, this, [this] {
        tie();
        check();
    });
    m_rows.push_back(row);
}

// The last row is always an empty one.
void ScalesDialog::tie() {
    const bool room = m_rows.size() < tasting::kMostScales;
    if ((m_rows.empty() || !m_rows.back().name->text().trimmed().isEmpty()) && room) addRow({});
    QWidget* before = nullptr;
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
        m_rows[i].name->setAccessibleName(u"Scale %1, name"_s.arg(i + 1));
        m_rows[i].kind->setAccessibleName(u"Scale %1, kind"_s.arg(i + 1));
        if (before) setTabOrder(before, m_rows[i].name);
        setTabOrder(m_rows[i].name, m_rows[i].kind);
        before = m_rows[i].kind;
    }
    if (before) setTabOrder(before, m_usual);
}

std::size_t ScalesDialog::rowOf(const QObject* field) const {
    for (std::size_t i = 0; i < m_rows.size(); ++i)
        if (m_rows[i].name == field || m_rows[i].kind == field) return i;
    return m_rows.size();
}

void ScalesDialog::removeRow(std::size_t row) {
    if (row >= m_rows.size() || (row + 1 == m_rows.size() && m_rows[row].name->text().isEmpty())) return;
    m_rows[row].box->deleteLater();
    m_rows.erase(m_rows.begin() + static_cast<std::ptrdiff_t>(row));
    tie();
    check();
    m_rows[std::min(row, m_rows.size() - 1)].name->setFocus();
}

void ScalesDialog::moveRow(std::size_t row, int by) {
    const auto to = static_cast<std::ptrdiff_t>(row) + by;
    if (to < 0 || to >= static_cast<std::ptrdiff_t>(m_rows.size())) return;
    const auto other = static_cast<std::size_t>(to);
    if (m_rows[row].name->text().isEmpty() || m_rows[other].name->text().isEmpty()) return;
    std::swap(m_rows[row], m_rows[other]);
    m_list->removeWidget(m_rows[other].box);
    m_list->insertWidget(static_cast<int>(other), m_rows[other].box);
    tie();
    m_scroll->ensureWidgetVisible(m_rows[other].box);
}

bool ScalesDialog::eventFilter(QObject* watched, QEvent* event) {
    const auto row = rowOf(watched);
    if (event->type() == QEvent::KeyPress && row < m_rows.size()) {
        const auto* key = dynamic_cast<QKeyEvent*>(event);
        if (key && key->modifiers() == Qt::AltModifier &&
            (key->key() == Qt::Key_Up || key->key() == Qt::Key_Down)) {
            moveRow(row, key->key() == Qt::Key_Up ? -1 : 1);
            return true;
        }
        if (key && key->modifiers() == Qt::ControlModifier && key->key() == Qt::Key_Delete) {
            removeRow(row);
            return true;
        }
    }
    if (event->type() == QEvent::FocusIn && row < m_rows.size())
        m_scroll->ensureWidgetVisible(m_rows[row].box);
    return QDialog::eventFilter(watched, event);
}

tasting::ScaleSet ScalesDialog::scales() const {
    tasting::ScaleSet set;
    tasting::ScaleSet taken; // an id once given is not given again, whatever the order
    for (const auto& row : m_rows)
        if (!row.id.empty()) taken.scales.push_back({row.id, row.id, {}});
    for (const auto& row : m_rows) {
        const auto name = toCore(row.name->text().simplified());
        if (name.empty()) continue;
        tasting::ScaleDefinition scale;
        scale.id = row.id.empty() ? tasting::newScaleId(taken, name) : row.id;
        scale.name = name;
        scale.kind = kKinds[static_cast<std::size_t>(std::max(0, row.kind->currentIndex()))];
        if (row.id.empty()) taken.scales.push_back(scale);
        set.scales.push_back(std::move(scale));
    }
    return set;
}

void ScalesDialog::check() {
    const auto problem = scales().problem();
    m_note->setText(problem ? inWords(*problem) : QString());
    m_save->setEnabled(!problem);
}

} // namespace stillroom::ui
