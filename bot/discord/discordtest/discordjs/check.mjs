// Logs in to the loopback double with discord.js, answers an interaction, loses
// the socket, resumes and answers the interaction that it missed meanwhile.
// The double's side of the play is `discord-double check-js`.
import { Client, Events, GatewayIntentBits } from 'discord.js';

const { DOUBLE_URL: url, DOUBLE_TOKEN: token } = process.env;
const patience = 45_000; // ms

function fail(reason) {
  console.error(`FAILED: ${reason}`);
  process.exit(1);
}

if (!url?.startsWith('http://127.0.0.1:') || !token) fail('DOUBLE_URL on 127.0.0.1 and DOUBLE_TOKEN are needed');
setTimeout(() => fail(`not done in ${patience} ms; seen: ${JSON.stringify(seen)}`), patience).unref();

const seen = { ready: 0, guilds: 0, answers: [], replayed: -1 };
const client = new Client({ intents: [GatewayIntentBits.Guilds], rest: { api: `${url}/api`, retries: 0 } });

function doneYet() {
  if (seen.answers.length < 2 || seen.replayed < 0) return;
  if (seen.answers.join() !== 'first,missed') fail(`answered ${seen.answers}`);
  if (seen.replayed < 1) fail(`resumed with ${seen.replayed} replayed events`);
  if (seen.ready !== 1) fail(`ready ${seen.ready} times`);
  console.log(`OK discord.js: ready with ${seen.guilds} guild, answered ${seen.answers.join(' and ')}, resumed with ${seen.replayed} replayed`);
  client.destroy().finally(() => process.exit(0));
}

client.on(Events.Error, (error) => fail(`error: ${error.message}`));
client.on(Events.Invalidated, () => fail('the session was invalidated'));
client.on(Events.ShardReady, (id, unavailable) => {
  if (unavailable?.size) fail(`guilds unavailable: ${unavailable.size}`);
});
client.on(Events.ShardResume, (id, replayed) => {
  seen.replayed = replayed;
  doneYet();
});
client.once(Events.ClientReady, async (ready) => {
  try {
    seen.ready += 1;
    seen.guilds = ready.guilds.cache.size;
    if (seen.guilds !== 1) fail(`ready with ${seen.guilds} guilds`);
    const channel = ready.guilds.cache.first().channels.cache.find((c) => c.name === 'races');
    if (!channel) fail('the guild has no channel races');
    const option = { type: 3, name: 'word', description: 'What to say', required: true };
    await ready.application.commands.set([{ name: 'echo', description: 'Say it again', options: [option] }]);
    const { id } = await channel.send({ content: 'Ready', nonce: 'ready', enforceNonce: true });
    if (!id) fail('the message has no id');
  } catch (error) {
    fail(error.stack);
  }
});
client.on(Events.InteractionCreate, async (interaction) => {
  try {
    if (!interaction.isChatInputCommand() || !interaction.inCachedGuild()) fail('not a command in a guild');
    if (interaction.member.displayName !== 'Ines K') fail(`asked by ${interaction.member.displayName}`);
    const word = interaction.options.getString('word', true);
    await interaction.deferReply({ flags: 64 });
    const message = await interaction.editReply(`You said ${word}`);
    if (message.content !== `You said ${word}`) fail(`the edit came back as ${message.content}`);
    await interaction.followUp({ content: 'And that was it', files: [{ attachment: Buffer.from(word), name: 'word.txt' }] });
    seen.answers.push(word);
    doneYet();
  } catch (error) {
    fail(error.stack);
  }
});

await client.login(token).catch((error) => fail(error.message));
